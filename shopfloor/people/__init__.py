"""Persons, customers, roles and who may do what.

A person is one human being with one password and never shares it. Rights come from open role grants and from nothing
else; `permissions.HOLDERS` is the one table that says which role holds which permission, and every view declares the
permission it needs (`needs`, `signed_in`, `public`, `api_needs`). Whoever administers persons must hold the manager role
at the moment of writing, under a lock, and never acts on their own account: so nobody raises their own rights, and the
last active manager always remains. The customer role stands alone: it is held with no other role and sees one customer.
Wrong passwords are counted in the database per typed name before a password is looked at, so parallel guesses gain
nothing. Every change writes its event in the ledger chain `people`; being signed in is not a record, a lock-out is.
An erased person stays as a number; the texts that named them are gone and the ledger still verifies.
"""
