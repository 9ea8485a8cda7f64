"""What is known of engine models before any engine comes in.

An engine data pack is one document: areas, parts list, route, permitted pairings, parts renewed together, cautions,
directives, each with document, revision and page. It is kept as one canonical text under its SHA-256, approved as a whole by
a second person who checked every page that it names, and never changed; a visit pins one. Its limit rows stand in
`measurements.limits` under the model's code, because readings keep them for ever.
"""
