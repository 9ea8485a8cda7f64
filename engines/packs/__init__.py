"""Engine data packs: read from files, held against the pages that they cite by a second person, put into force, compared.

`reading` knows files and plain values only and reports every mistake that it finds; `writing` makes the same files of a pack
again. The next revision of a route is written as a draft: text in versions, cut at its operations by `route_text`, read by the
same reader as a file, and sent in as a pack that somebody who did not write in it approves. What is kept lies in
`engines.catalogue`.
"""
