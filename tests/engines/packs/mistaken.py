"""One change of the small pack, and every mistake that it makes: the text taken out, what is put there, what is said."""

PACK_EDITS = [
    ('layout: "opposed"', 'layout: "vee"', ["pack.yaml:4: layout “vee” is not known"]),
    ('cylinders: "2"', "cylinders: two", ["pack.yaml:5: cylinders “two” is no count"]),
    ('revision: "1"\n', "", ["pack.yaml:1: revision is blank"]),
    ('maker: "Invented Engines"', "maker: [a]", ["pack.yaml:3: maker holds a list or a mapping where text is wanted"]),
    ('maker: "Invented Engines"', "maker: yes", ["pack.yaml:3: maker “yes” is no text in YAML"]),
    ('maker: "Invented Engines"', "colour: red\nmaker: X", ["pack.yaml:3: the key “colour” is not known"]),
    ('maker: "Invented Engines"', "maker: X\nmaker: Y", ["pack.yaml:4: the key maker stands there twice"]),
    ('maker: "Invented Engines"', 'maker: "a\\0b"', ["pack.yaml:3: maker holds signs that cannot be printed"]),
    ('maker: "Invented Engines"', 'maker: "X', ["pack.yaml:4: not YAML: expected <block end>, but found '<scalar>'"]),
    ('maker: "Invented Engines"', "maker: !!python/name:os.system", ["pack.yaml:3: tags (!) are not used"]),
    (
        'maker: "Invented Engines"',
        "maker: &name X\nlabel: *name",
        ["pack.yaml:3: anchors and aliases (& and *) are not used", "pack.yaml:4: anchors and aliases (& and *) are not used"],
    ),
    ('maker: "Invented Engines"', "maker: [[[[[[[[[[[[[]]]]]]]]]]]]]", ["pack.yaml:3: the file nests too deep or is too long"]),
    (
        '  - {"code": "cylinders"',
        '  - {"code": "case", "name": "Case", "document": "M", "revision": "3", "page": "9"}\n  - {"code": "cylinders"',
        ["pack.yaml:10: the area “case” stands on line 9 already"],
    ),
    ('  - {"code": "case",', '  - case\n  - {"code": "case",', ["pack.yaml:9: an entry of areas is no mapping"]),
    ('"lines": ["case-half", "gasket"]', '"lines": ["case-half", "seal"]', ["pack.yaml:16: there is no parts list line “seal”"]),
    ('"lines": ["case-half", "gasket"]', '"lines": "gasket"', ["pack.yaml:16: lines is no list"]),
    ('"lines": ["case-half", "gasket"]', '"lines": ["gasket", "gasket"]', ["pack.yaml:16: lines holds “gasket” twice"]),
    ('"fit": "piston-in-barrel"', '"fit": "barrel"', ["pack.yaml:14: the pairing names “barrel”, which is no fit"]),
    (
        '"inner_class": "0.010 under"',
        '"inner_class": "0.020 under"',
        ["pack.yaml:13: row “crank-main” has no size class “0.020 under”"],
    ),
    (
        '"outer_class": "0.010 under", "inner_class": "0.010 under", ',
        "",
        ["pack.yaml:13: the pairing “main-clearance / standard / standard” stands on line 12 already"],
    ),
    ('"area": "cylinders", "words"', '"area": "gears", "words"', ["pack.yaml:18: there is no area “gears”"]),
    ('"page": "page 6-1"', '"page": ""', ["pack.yaml:20: page is blank"]),
]

PARTS_EDITS = [
    (
        "line,part_number",
        "line,number",
        ["parts.csv:1: the column part_number is missing", "parts.csv:1: the column “number” is not known"],
    ),
    ("renew,document", "renew,renew,document", ["parts.csv:1: the column renew stands there twice"]),
    (
        "gasket,T2-190,",
        "gasket,T2-190,spare,",
        ["parts.csv:4: there are 11 fields where the header names 10"],
    ),
    ("Crankshaft,case", '"Crankshaft,case', ["parts.csv:2: not comma-separated text (unexpected end of data)"]),
    ("engine,serial", "engine,number", ["parts.csv:2: tracking “number” is not known"]),
    ("none,yes", "none,true", ["parts.csv:4: renew “true” is not known"]),
    ("case,case,mark", "case,,mark", ["parts.csv:3: places is blank"]),
    ("cylinder 1; cylinder 2,mark", "cylinder 1;; cylinder 2,mark", ["parts.csv:5: places holds a blank"]),
    (
        "piston,T2-201,Piston,cylinders",
        "piston,T2-201,Piston,gears",
        ["parts.csv:6: there is no area “gears”", "route.yaml:10: “piston” belongs to the area “gears”, not to “cylinders”"],
    ),
    (
        "gasket,T2-190",
        "case-half,T2-190",
        ["pack.yaml:16: there is no parts list line “gasket”", "parts.csv:4: the line “case-half” stands on line 3 already"],
    ),
    ("case joint,none,yes", "case joint,mark,", ["parts.csv:4: no operation tags “gasket”"]),
    (
        "cylinder 1; cylinder 2,mark,",
        "cylinder 1; cylinder 2,mark,yes",
        ["limits.csv:9: row “barrel” is required as received, but “cylinder” is never used again"],
    ),
]

ROUTE_EDITS = [
    ('"stage": "receiving"', '"stage": "arrival"', ["route.yaml:1: stage “arrival” is not known"]),
    (
        '"kind": "sign-off", "title": "Identity',
        '"kind": "signing", "title": "Identity',
        ["route.yaml:1: kind “signing” is not known"],
    ),
    ('"scopes": ["overhaul"]', '"scopes": ["top overhaul"]', ["route.yaml:13: scopes “top overhaul” is not known"]),
    ('"reasons": ["propeller strike"]', '"reasons": ["lightning"]', ["route.yaml:5: reasons “lightning” is not known"]),
    (
        '"stage": "receiving", "kind": "sign-off", "title": "Cylinders',
        '"stage": "close-up", "kind": "sign-off", "title": "Cylinders',
        [
            "route.yaml:9: area “cylinders” has no stage “close-up”",
            "route.yaml:10: “tag-cylinders” in teardown waits for “receive-cylinders” in close-up",
        ],
    ),
    ('"area": "case", "stage": "receiving"', '"area": "gears", "stage": "receiving"', ["route.yaml:1: there is no area “gears”"]),
    (
        '"code": "clean-cylinders"',
        '"code": "look-barrels"',
        [
            "route.yaml:12: the operation “look-barrels” stands on line 11 already",
            "route.yaml:12: there is no operation “clean-cylinders”",
            "route.yaml:13: there is no operation “clean-cylinders”",
            "route.yaml:14: there is no operation “clean-cylinders”",
        ],
    ),
    ('"criterion": "The thin leaf does not enter.", ', "", ["route.yaml:13: criterion is blank"]),
    ('"hold_point": true', '"hold_point": "perhaps"', ["route.yaml:4: hold_point is neither true nor false"]),
    ('"caution": "keep-pairs"', '"caution": "keep-apart"', ["route.yaml:10: there is no caution “keep-apart”"]),
    ('"after": ["tag-case"]', '"after": ["tag-crank"]', ["route.yaml:3: there is no operation “tag-crank”"]),
    (
        '"names": ["crankshaft", "case-half"]',
        '"names": ["crankshaft", "case-half", "sump"]',
        ["route.yaml:2: there is no parts list line “sump”"],
    ),
    (
        '"names": ["crankshaft", "case-half"]',
        '"names": ["crankshaft", "case-half", "piston"]',
        [
            "route.yaml:2: “piston” belongs to the area “cylinders”, not to “case”",
            "route.yaml:10: “piston” is tagged by “tag-case” already",
        ],
    ),
    ('"names": ["crankshaft", "case-half"]', '"names": ["crankshaft"]', ["parts.csv:3: no operation tags “case-half”"]),
    (
        '"names": ["crankshaft", "case-half"]',
        '"names": ["crankshaft", "case-half", "gasket"]',
        ["route.yaml:2: “gasket” is tagged, but its tracking is none"],
    ),
    ('"names": ["main-clearance"], ', "", ["route.yaml:7: the operation “fit-mains” names nothing"]),
    (
        '"names": ["main-clearance"]',
        '"names": ["crank-main"]',
        ["route.yaml:7: the operation “fit-mains” names “crank-main”, which is read"],
    ),
    (
        '"names": ["crank-main", "bearing-bore"]',
        '"names": ["crank-main", "bearing-bore", "crank-main-oor"]',
        ["route.yaml:6: the operation “read-mains” names “crank-main-oor”, which is derived"],
    ),
    (
        '"names": ["crank-main", "bearing-bore"]',
        '"names": ["crank-main", "bearing-bore", "main-clearance"]',
        ["route.yaml:6: the operation “read-mains” names “main-clearance”, which is a fit"],
    ),
    (
        '"names": ["crank-main", "bearing-bore"]',
        '"names": ["crank-main", "bearing-bore", "rod"]',
        ["route.yaml:6: there is no limit row “rod”"],
    ),
    (
        '"names": ["crank-main", "bearing-bore"]',
        '"names": ["crank-main"]',
        ["limits.csv:6: row “bearing-bore” is required, and no operation reads it"],
    ),
    (
        '"stage": "inspection", "kind": "reading", "title": "Read journals',
        '"stage": "repair", "kind": "reading", "title": "Read journals',
        [
            "route.yaml:7: “fit-mains” in inspection waits for “read-mains” in repair",
            "limits.csv:2: row “crank-main” is required, and no operation reads it",
            "limits.csv:6: row “bearing-bore” is required, and no operation reads it",
        ],
    ),
    (
        '"after": ["tag-case"]',
        '"after": ["tag-case", "read-mains"]',
        ["route.yaml:3: “clean-case” in cleaning waits for “read-mains” in inspection"],
    ),
    (
        '"after": ["look-crankshaft"]',
        '"after": ["look-crankshaft", "fit-mains"]',
        ["route.yaml:6: these wait for each other: read-mains → fit-mains → read-mains"],
    ),
    (
        '- {"code": "receive-case"',
        '- receive-case\n- {"code": "receive-case"',
        ["route.yaml:1: an entry of the route is no mapping"],
    ),
]

LIMITS_EDITS = [
    ("row,size_class", "row,class", ["limits.csv:1: the column “class” is not known"]),
    ("in,2.1240,2.1250", "furlong,2.1240,2.1250", ["limits.csv:2: unit “furlong” is not known"]),
    ("in,2.1240,2.1250", "in,2-1/8,2.1250", ["limits.csv:2: new_min “2-1/8” is no number"]),
    (
        "2.1240,2.1250,2.1230,",
        "2.1250,2.1240,2.1230,",
        ["limits.csv:2: limits are reversed: new_min 2.1250 is above new_max 2.1240 (in)"],
    ),
    (
        "2.1240,2.1250,2.1230,",
        "2.1240,2.1250,2.1245,",
        ["limits.csv:2: limits are reversed: service_min 2.1245 is above new_min 2.1240 (in)"],
    ),
    (
        "2.1240,2.1250,2.1230,,,",
        "2.1240,2.1250,2.1230,,mm,54.00",
        ["limits.csv:2: the columns disagree: new_min 2.1240 in, alt_new_min 54.00 mm"],
    ),
    (
        "2.1240,2.1250,2.1230,,,",
        "2.1240,2.1250,2.1230,,,54.00",
        ["limits.csv:2: there are limits in a second unit, but alt_unit is blank"],
    ),
    ("2.1240,2.1250,2.1230,,,", "2.1240,2.1250,2.1230,,g,54.00", ["limits.csv:2: in measures length and g measures mass"]),
    ("new,,absolute,,", "used,,absolute,,", ["limits.csv:2: worn “used” is not known"]),
    ("new,,absolute,,", "new,band,absolute,,", ["limits.csv:2: rule “band” is not known"]),
    ("new,,absolute,,", "new,,nearest,,", ["limits.csv:2: basis “nearest” is not known"]),
    ("new,,absolute,,", "new,,rounding,,", ["limits.csv:2: basis is rounding, but decimals is blank"]),
    ("new,,absolute,,", "new,,absolute,four,", ["limits.csv:2: decimals “four” is no count"]),
    (
        "0.0080,,,,,,new",
        "0.0080,,,,,,fit",
        ["limits.csv:10: row “barrel-choke” says that its limit is on the fit, and no fit names it"],
    ),
    ("as received,,", "cold,,", ["limits.csv:2: condition “cold” is not known"]),
    ("as received,,", "as received,maybe,", ["limits.csv:2: required “maybe” is not known"]),
    (
        "crank-main,0.010 under,,,crankshaft",
        "crank-main,0.010 under,,,case-half",
        ["limits.csv:3: part of row “crank-main” is not what it is on line 2"],
    ),
    (
        "skirt diameter,cylinder 1; cylinder 2",
        "skirt diameter,cylinder 1; cylinder 2; cylinder 3",
        ["limits.csv:11: “piston” has no place “cylinder 3”"],
    ),
    (
        "crank-main,,,,crankshaft",
        "crank-main,,,,camshaft",
        [
            "limits.csv:2: there is no parts list line “camshaft”",
            "limits.csv:3: part of row “crank-main” is not what it is on line 2",
        ],
    ),
    ("barrel-choke,,,", "barrel-choke,,L-9,L-1", ["limits.csv:10: the serials L-9 to L-1 run down"]),
    ("barrel-choke,,,", "barrel-choke,,L-1,M-9", ["limits.csv:10: the serials L-1 and M-9 are of two kinds"]),
    ("barrel-choke,,,", "barrel-choke,,all,", ["limits.csv:10: the serial “all” has no number"]),
    (
        "crank-main,out-of-round",
        "crank-main,ovality",
        [
            "limits.csv:4: quantity “ovality” is not known",
            "limits.csv:5: quantity of row “crank-main-oor” is not what it is on line 4",
        ],
    ),
    ("barrel,taper,", "barrel,,", ["limits.csv:10: there is a from_row, but quantity is blank"]),
    ("barrel,taper,", ",taper,", ["limits.csv:10: there is a quantity, but from_row is blank"]),
    ("barrel,taper,head; skirt", "barrel,taper,head; waist", ["limits.csv:10: “barrel” is not read at the plane “waist”"]),
    ("barrel,taper,head; skirt", "barrel,taper,head", ["limits.csv:10: a taper runs between two planes"]),
    (
        "barrel,taper,head; skirt,",
        "barrel,taper,head; skirt,0; 90",
        ["limits.csv:10: a derived row is not read, but it has directions"],
    ),
    (
        "barrel,taper,head; skirt",
        "piston-in-barrel,taper,head; skirt",
        ["limits.csv:10: from_row names “piston-in-barrel”, which is itself derived or a fit"],
    ),
    (
        "choke of the barrel,cylinder 1; cylinder 2",
        "choke of the barrel,cylinder 1",
        ["limits.csv:10: the places are not those of “barrel”"],
    ),
    (
        "front; rear,0; 90",
        "front; rear,0",
        [
            "limits.csv:4: “crank-main” is read in fewer than two directions, which shows no out-of-round",
            "limits.csv:5: “crank-main” is read in fewer than two directions, which shows no out-of-round",
        ],
    ),
    ("in,0.0030,0.0060", "deg,0.0030,0.0060", ["limits.csv:10: “deg” and “in” of “barrel” measure different things"]),
    ("in,0.0030,0.0060,0.0010,0.0080", "in,,,,", ["limits.csv:10: row “barrel-choke” has no limit"]),
    ("barrel,skirt-diameter,skirt,", "barrel,pin-bore,skirt,", ["limits.csv:12: inner_row: there is no limit row “pin-bore”"]),
    ("barrel,skirt-diameter,skirt,", "barrel,,skirt,", ["limits.csv:12: the fit has only one mate"]),
    ("barrel,skirt-diameter,skirt,", "barrel,barrel,skirt,", ["limits.csv:12: outer_row and inner_row are both “barrel”"]),
    (
        "barrel,skirt-diameter,skirt,",
        "barrel,skirt-diameter,waist,",
        ["limits.csv:12: “barrel” is not read at the plane “waist”"],
    ),
    (
        "barrel,skirt-diameter,skirt,,,,",
        "barrel,skirt-diameter,skirt,,,,skirt",
        ["limits.csv:12: a fit is not read, but it has planes or directions"],
    ),
    (
        "main bearing clearance,main 1; main 2",
        "main bearing clearance,main 1; main 3",
        ["limits.csv:8: “bearing-bore” is not read at “main 3”", "limits.csv:8: “crank-main” is not read at “main 3”"],
    ),
    (
        "in,0.0110,0.0130",
        "g,0.0110,0.0130",
        [
            "limits.csv:12: “g” and “in” of “barrel” measure different things",
            "limits.csv:12: “g” and “in” of “skirt-diameter” measure different things",
        ],
    ),
    (",,,,front; rear", ",skirt,,,front; rear", ["limits.csv:2: inner_planes is filled in, but the row is no fit"]),
    (
        "in,0.0015,0.0035",
        "in,0.0016,0.0035",
        ["limits.csv:8: new_min 0.0016 of fit “main-clearance”, but its mates give 0.0015 in"],
    ),
]
