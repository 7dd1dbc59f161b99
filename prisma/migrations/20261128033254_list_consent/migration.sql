-- CreateTable
CREATE TABLE "list_consent" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "word" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "list_consent_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "accepted_row" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "version" INTEGER NOT NULL,
    "word" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "accepted_row_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateIndex
CREATE UNIQUE INDEX "list_consent_agreement_id_party_id_version_key" ON "list_consent"("agreement_id", "party_id", "version");

-- CreateIndex
CREATE UNIQUE INDEX "accepted_row_agreement_id_party_id_kind_fingerprint_version_key" ON "accepted_row"("agreement_id", "party_id", "kind", "fingerprint", "version");

-- AddForeignKey
ALTER TABLE "list_consent" ADD CONSTRAINT "list_consent_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "list_consent" ADD CONSTRAINT "list_consent_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "accepted_row" ADD CONSTRAINT "accepted_row_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "accepted_row" ADD CONSTRAINT "accepted_row_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---- what the schema cannot say

-- Words take turns, so that the last one says how it stands, whatever the clocks of two machines say.
ALTER TABLE "list_consent" ADD CONSTRAINT list_consent_word
  CHECK (version >= 1 AND word = CASE WHEN version % 2 = 1 THEN 'given' ELSE 'withdrawn' END);
ALTER TABLE "accepted_row" ADD CONSTRAINT accepted_row_word
  CHECK (version >= 1 AND word = CASE WHEN version % 2 = 1 THEN 'accepted' ELSE 'taken-back' END);
ALTER TABLE "accepted_row" ADD CONSTRAINT accepted_row_kind CHECK (kind IN ('own-loads', 'own-payments'));
ALTER TABLE "accepted_row" ADD CONSTRAINT accepted_row_fingerprint CHECK (fingerprint ~ '^[0-9a-f]{64}$');

CREATE FUNCTION check_list_consent() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.version > 1 AND NOT EXISTS (
    SELECT FROM list_consent WHERE agreement_id = NEW.agreement_id AND party_id = NEW.party_id AND version = NEW.version - 1
  ) THEN
    RAISE EXCEPTION 'A word follows the one before it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER list_consent_checked BEFORE INSERT ON "list_consent" FOR EACH ROW EXECUTE FUNCTION check_list_consent();

CREATE FUNCTION check_accepted_row() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.version > 1 AND NOT EXISTS (
    SELECT FROM accepted_row WHERE agreement_id = NEW.agreement_id AND party_id = NEW.party_id
      AND kind = NEW.kind AND fingerprint = NEW.fingerprint AND version = NEW.version - 1
  ) THEN
    RAISE EXCEPTION 'A word follows the one before it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER accepted_row_checked BEFORE INSERT ON "accepted_row" FOR EACH ROW EXECUTE FUNCTION check_accepted_row();

CREATE TRIGGER list_consent_written_once BEFORE UPDATE OR DELETE ON "list_consent" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER list_consent_not_emptied BEFORE TRUNCATE ON "list_consent" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER accepted_row_written_once BEFORE UPDATE OR DELETE ON "accepted_row" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER accepted_row_not_emptied BEFORE TRUNCATE ON "accepted_row" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
GRANT SELECT, INSERT ON "list_consent", "accepted_row" TO huskledger_app;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
ALTER TABLE "list_consent" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "accepted_row" ENABLE ROW LEVEL SECURITY;

-- Both sides read who agrees, each writes for itself.
CREATE POLICY of_its_parties ON "list_consent" TO huskledger_app
  USING (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))
  WITH CHECK (
    party_id = current_party()
    AND agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));
CREATE POLICY of_its_party ON "accepted_row" TO huskledger_app
  USING (party_id = current_party())
  WITH CHECK (
    party_id = current_party()
    AND agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));

-- Whether the asking party is of the agreement, and the last word of both its parties is that they agree.
CREATE FUNCTION lists_are_shared(agreement uuid) RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (
    SELECT FROM agreement a WHERE a.id = lists_are_shared.agreement AND current_party() IN (a.seller_id, a.buyer_id)
      AND (SELECT c.word FROM list_consent c WHERE c.agreement_id = a.id AND c.party_id = a.seller_id ORDER BY c.version DESC LIMIT 1) = 'given'
      AND (SELECT c.word FROM list_consent c WHERE c.agreement_id = a.id AND c.party_id = a.buyer_id ORDER BY c.version DESC LIMIT 1) = 'given')
$$;

-- Whether a list is the one that counts of its party and kind. What took an earlier one's place is nobody else's business.
CREATE FUNCTION is_newest_list(agreement uuid, list uuid) RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (
    SELECT FROM own_list l WHERE l.agreement_id = is_newest_list.agreement AND l.id = is_newest_list.list AND NOT EXISTS (
      SELECT FROM own_list later WHERE later.agreement_id = l.agreement_id AND later.party_id = l.party_id
        AND later.kind = l.kind AND (later.recorded_at, later.id) > (l.recorded_at, l.id)))
$$;
REVOKE ALL ON FUNCTION lists_are_shared(uuid), is_newest_list(uuid, uuid) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION lists_are_shared(uuid), is_newest_list(uuid, uuid) TO huskledger_app;

-- The other side sees the newest list of each kind while both agree, to read.
CREATE POLICY of_both_while_shared ON "own_list" FOR SELECT TO huskledger_app
  USING (lists_are_shared(agreement_id) AND is_newest_list(agreement_id, id));
