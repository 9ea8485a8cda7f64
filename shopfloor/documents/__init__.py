"""Files kept by their hash; papers rendered by a worker and sealed. The kinds come from the rooms above.

`files` stores bytes under their SHA-256, written whole or not at all, never written over, and checked whenever they are
read. `services.request_document` writes a document, its job and an event in one transaction; a worker renders it with no
transaction open and links the file together with the job's end, so there is one file and one `document.rendered` event
however often the work was begun. A paper may use only our own static files, stored files by hash and images written into
it: whatever else it asks for, or anything the renderer had to leave out, fails the paper with its reason.

A kind of paper is a `DocumentKind`: a template that extends `documents/paper.html`, what to fill it with, who may see it.
What a person may not see does not exist for that person. Only who asked may ask again after a failure.
"""
