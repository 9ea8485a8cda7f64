"""The append as one function in PostgreSQL, so that recording an act costs one round trip."""

# Runs with the rights of its owner and a fixed search path: the application role needs no right on the tables it writes.
APPEND_FUNCTION = r"""
CREATE OR REPLACE FUNCTION ledger_append(
    the_act uuid, the_person bigint, the_moment timestamptz,
    chains text[], kinds text[], labels text[], ids text[], bodies bytea[],
    creation_chains text[], creation_bodies bytea[],
    text_digests bytea[], text_salts bytea[], text_texts text[], text_labels text[], text_ids text[], text_fields text[]
) RETURNS void LANGUAGE plpgsql VOLATILE SECURITY DEFINER SET search_path = {schema}, pg_temp AS $body$
DECLARE
    names text[];
    name_of_head text;
    head record;
    new_chains text[] := '{{}}';
    place integer;
BEGIN
    SELECT array_agg(DISTINCT wanted COLLATE "C") INTO names FROM unnest(chains) AS wanted;
    IF (SELECT count(*) FROM ledger_chainhead WHERE name = ANY (names)) < cardinality(names) THEN
        names := names || 'shop'::text;
    END IF;
    -- A name is locked whether its head exists or not, so all writers queue in one order and none deadlocks.
    FOR name_of_head IN SELECT DISTINCT wanted COLLATE "C" FROM unnest(names) AS wanted ORDER BY 1 LOOP
        SELECT sequence INTO head FROM ledger_chainhead WHERE name = name_of_head FOR UPDATE;
        IF NOT FOUND THEN
            INSERT INTO ledger_chainhead (name, sequence, hash) VALUES (name_of_head, 0, decode(repeat('00', 32), 'hex'))
            ON CONFLICT DO NOTHING;
            SELECT sequence INTO head FROM ledger_chainhead WHERE name = name_of_head FOR UPDATE;
            IF head.sequence = 0 THEN
                new_chains := CASE WHEN name_of_head = 'shop' THEN 'shop'::text || new_chains ELSE new_chains || name_of_head END;
            END IF;
        END IF;
    END LOOP;
    FOREACH name_of_head IN ARRAY new_chains LOOP
        PERFORM ledger_place('shop', 'chain.created', the_act, the_person, the_moment, 'ledger.chain', name_of_head,
            creation_bodies[array_position(creation_chains, name_of_head)]);
    END LOOP;
    FOR place IN 1 .. cardinality(chains) LOOP
        PERFORM ledger_place(chains[place], kinds[place], the_act, the_person, the_moment,
            labels[place], ids[place], bodies[place]);
    END LOOP;
    IF cardinality(text_digests) > 0 THEN
        INSERT INTO ledger_erasabletext (digest, salt, text, about_label, about_id, field)
        SELECT * FROM unnest(text_digests, text_salts, text_texts, text_labels, text_ids, text_fields);
    END IF;
END
$body$
"""

PLACE_FUNCTION = r"""
CREATE OR REPLACE FUNCTION ledger_place(
    the_chain text, the_kind text, the_act uuid, the_person bigint, the_moment timestamptz,
    the_label text, the_id text, the_body bytea
) RETURNS void LANGUAGE plpgsql VOLATILE SET search_path = {schema}, pg_temp AS $body$
DECLARE
    head record;
    name_bytes bytea := convert_to(the_chain, 'UTF8');
    new_hash bytea;
BEGIN
    SELECT heads.sequence + 1 AS sequence, heads.hash AS hash INTO STRICT head
    FROM ledger_chainhead AS heads WHERE heads.name = the_chain;
    new_hash := sha256('main-journal event 1'::bytea || int4send(length(name_bytes)) || name_bytes
        || int8send(head.sequence) || head.hash || the_body);
    INSERT INTO ledger_ledgerevent (chain, sequence, kind, act, by, at, about_label, about_id, body_bytes, previous, hash)
    VALUES (the_chain, head.sequence, the_kind, the_act, the_person, the_moment,
        the_label, the_id, the_body, head.hash, new_hash);
    UPDATE ledger_chainhead SET sequence = head.sequence, hash = new_hash WHERE name = the_chain;
END
$body$
"""

DROP_FUNCTIONS = """
DROP FUNCTION IF EXISTS ledger_append(uuid, bigint, timestamptz, text[], text[], text[], text[], bytea[], text[], bytea[],
    bytea[], bytea[], text[], text[], text[], text[]);
DROP FUNCTION IF EXISTS ledger_place(text, text, uuid, bigint, timestamptz, text, text, bytea);
"""
