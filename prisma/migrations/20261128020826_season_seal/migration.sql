-- CreateTable
CREATE TABLE "season_close" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "statement" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "entry_count" INTEGER NOT NULL,
    "root" CHAR(64) NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "season_close_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "season_signature" (
    "agreement_id" UUID NOT NULL,
    "close_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "signed_at" TIMESTAMPTZ(6) NOT NULL,
    "signed_by" UUID NOT NULL,

    CONSTRAINT "season_signature_pkey" PRIMARY KEY ("agreement_id","close_id","party_id")
);

-- CreateTable
CREATE TABLE "season_seal" (
    "agreement_id" UUID NOT NULL,
    "close_id" UUID NOT NULL,
    "root" CHAR(64) NOT NULL,
    "entry_count" INTEGER NOT NULL,
    "sealed_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "season_seal_pkey" PRIMARY KEY ("agreement_id")
);

-- CreateIndex
CREATE UNIQUE INDEX "season_seal_agreement_id_close_id_key" ON "season_seal"("agreement_id", "close_id");

-- AddForeignKey
ALTER TABLE "season_close" ADD CONSTRAINT "season_close_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_signature" ADD CONSTRAINT "season_signature_agreement_id_close_id_fkey" FOREIGN KEY ("agreement_id", "close_id") REFERENCES "season_close"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_seal" ADD CONSTRAINT "season_seal_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_seal" ADD CONSTRAINT "season_seal_agreement_id_close_id_fkey" FOREIGN KEY ("agreement_id", "close_id") REFERENCES "season_close"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---- what the schema cannot say

ALTER TABLE "season_close" ADD CONSTRAINT season_close_fingerprint CHECK (fingerprint = encode(sha256(convert_to(statement, 'UTF8')), 'hex'));

-- A statement is about the journal as it stands: one that was drawn up before the last entry is not signed.
CREATE FUNCTION check_season_signature() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  proposed season_close%ROWTYPE;
BEGIN
  PERFORM pg_advisory_xact_lock(hashtextextended('season close ' || NEW.agreement_id::text, 0));
  SELECT * INTO proposed FROM season_close WHERE agreement_id = NEW.agreement_id AND id = NEW.close_id;
  IF EXISTS (SELECT FROM season_seal WHERE agreement_id = NEW.agreement_id) THEN
    RAISE EXCEPTION 'This season is sealed' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF NEW.fingerprint <> proposed.fingerprint THEN
    RAISE EXCEPTION 'A signature names the statement that it is under' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF NOT EXISTS (SELECT FROM agreement WHERE id = NEW.agreement_id AND NEW.party_id IN (seller_id, buyer_id)) THEN
    RAISE EXCEPTION 'The two parties of an agreement close its season' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF proposed.entry_count <> (SELECT count(*) FROM journal_entry WHERE agreement_id = NEW.agreement_id) THEN
    RAISE EXCEPTION 'The journal has gone on since this statement was drawn up' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER season_signature_checked BEFORE INSERT ON "season_signature" FOR EACH ROW EXECUTE FUNCTION check_season_signature();

-- The second signature seals: nobody can seal by itself, and nothing lies between signing and sealing.
CREATE FUNCTION seal_season() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF (SELECT count(*) FROM season_signature WHERE agreement_id = NEW.agreement_id AND close_id = NEW.close_id) = 2 THEN
    INSERT INTO season_seal (agreement_id, close_id, root, entry_count, sealed_at)
    SELECT agreement_id, id, root, entry_count, NEW.signed_at FROM season_close
    WHERE agreement_id = NEW.agreement_id AND id = NEW.close_id;
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER season_signature_seals AFTER INSERT ON "season_signature" FOR EACH ROW EXECUTE FUNCTION seal_season();

-- A sealed season takes no entry, whoever writes it.
CREATE FUNCTION refuse_sealed() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  -- Whoever seals waits for entries that are under way, and they for the seal.
  PERFORM pg_advisory_xact_lock_shared(hashtextextended('season close ' || e.agreement_id::text, 0))
  FROM (SELECT DISTINCT agreement_id FROM new_entries ORDER BY agreement_id) e;
  IF EXISTS (
    SELECT FROM (SELECT DISTINCT agreement_id FROM new_entries) e JOIN season_seal s ON s.agreement_id = e.agreement_id
  ) THEN
    RAISE EXCEPTION 'This season is sealed: its journal takes no further entry' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER journal_entry_not_sealed AFTER INSERT ON "journal_entry"
  REFERENCING NEW TABLE AS new_entries FOR EACH STATEMENT EXECUTE FUNCTION refuse_sealed();

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY['season_close', 'season_signature', 'season_seal'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app
       USING (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))
       WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
END $$;
GRANT SELECT, INSERT ON "season_close", "season_signature" TO huskledger_app;
GRANT SELECT ON "season_seal" TO huskledger_app;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
CREATE POLICY by_its_author ON "season_close" AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (by_party_id = current_party());
CREATE POLICY by_its_author ON "season_signature" AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (party_id = current_party());
