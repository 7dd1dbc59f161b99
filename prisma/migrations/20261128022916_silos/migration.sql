-- CreateTable
CREATE TABLE "silo" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "silo_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "silo_entry" (
    "agreement_id" UUID NOT NULL,
    "silo_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "party_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "content" TEXT,
    "reason" TEXT,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "silo_entry_pkey" PRIMARY KEY ("agreement_id","id","version")
);

-- CreateIndex
CREATE INDEX "silo_agreement_id_party_id_idx" ON "silo"("agreement_id", "party_id");

-- CreateIndex
CREATE INDEX "silo_entry_agreement_id_silo_id_idx" ON "silo_entry"("agreement_id", "silo_id");

-- AddForeignKey
ALTER TABLE "silo" ADD CONSTRAINT "silo_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "silo" ADD CONSTRAINT "silo_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "silo_entry" ADD CONSTRAINT "silo_entry_agreement_id_silo_id_fkey" FOREIGN KEY ("agreement_id", "silo_id") REFERENCES "silo"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;
-- ---- what the schema cannot say

ALTER TABLE "silo_entry"
  ADD CONSTRAINT silo_entry_kind CHECK (kind IN ('silo', 'filling', 'fed', 'left') AND (kind = 'silo') = (id = silo_id)),
  ADD CONSTRAINT silo_entry_first CHECK (version >= 1 AND (version = 1) = (reason IS NULL) AND (version > 1 OR content IS NOT NULL));

-- Versions leave no gap, stay with their silo and of their kind, and none follows a withdrawal.
CREATE FUNCTION check_silo_entry() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.version > 1 AND NOT EXISTS (
    SELECT FROM silo_entry WHERE agreement_id = NEW.agreement_id AND id = NEW.id AND version = NEW.version - 1
      AND silo_id = NEW.silo_id AND kind = NEW.kind AND content IS NOT NULL
  ) THEN
    RAISE EXCEPTION 'A version follows the one before it, unless that was a withdrawal' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER silo_entry_checked BEFORE INSERT ON "silo_entry" FOR EACH ROW EXECUTE FUNCTION check_silo_entry();

CREATE TRIGGER silo_written_once BEFORE UPDATE OR DELETE ON "silo" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER silo_not_emptied BEFORE TRUNCATE ON "silo" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
CREATE TRIGGER silo_entry_written_once BEFORE UPDATE OR DELETE ON "silo_entry" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER silo_entry_not_emptied BEFORE TRUNCATE ON "silo_entry" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
GRANT SELECT, INSERT ON "silo", "silo_entry" TO huskledger_app;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
ALTER TABLE "silo" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "silo_entry" ENABLE ROW LEVEL SECURITY;

-- The buyer keeps this account for itself: no seller and no adviser sees a row of it.
CREATE POLICY of_its_party ON "silo" TO huskledger_app
  USING (party_id = current_party())
  WITH CHECK (
    party_id = current_party() AND agreement_id IN (SELECT id FROM agreement WHERE current_party() = buyer_id));
CREATE POLICY of_its_party ON "silo_entry" TO huskledger_app
  USING (party_id = current_party())
  WITH CHECK (
    party_id = current_party()
    AND (agreement_id, silo_id) IN (SELECT s.agreement_id, s.id FROM silo s WHERE s.party_id = current_party()));
