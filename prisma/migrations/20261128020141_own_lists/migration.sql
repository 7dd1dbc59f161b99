-- CreateTable
CREATE TABLE "own_list" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "file_name" TEXT NOT NULL,
    "rows" TEXT NOT NULL,
    "row_count" INTEGER NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "own_list_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "kept_match" (
    "party_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "header" CHAR(64) NOT NULL,
    "match" TEXT NOT NULL,
    "kept_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "kept_match_pkey" PRIMARY KEY ("party_id","kind","header")
);

-- CreateIndex
CREATE INDEX "own_list_agreement_id_party_id_recorded_at_idx" ON "own_list"("agreement_id", "party_id", "recorded_at");

-- AddForeignKey
ALTER TABLE "own_list" ADD CONSTRAINT "own_list_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "own_list" ADD CONSTRAINT "own_list_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "kept_match" ADD CONSTRAINT "kept_match_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---- what the schema cannot say

ALTER TABLE "own_list" ADD CONSTRAINT own_list_counted CHECK (row_count >= 0);

CREATE TRIGGER own_list_written_once BEFORE UPDATE OR DELETE ON "own_list" FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER own_list_not_emptied BEFORE TRUNCATE ON "own_list" FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
GRANT SELECT, INSERT ON "own_list" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE (match, kept_at) ON "kept_match" TO huskledger_app;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
ALTER TABLE "own_list" ENABLE ROW LEVEL SECURITY;
ALTER TABLE "kept_match" ENABLE ROW LEVEL SECURITY;

-- A party's own books are nobody else's, also not the other side's of the agreement that they are about.
CREATE POLICY of_its_party ON "own_list" TO huskledger_app
  USING (party_id = current_party())
  WITH CHECK (
    party_id = current_party()
    AND agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));
CREATE POLICY of_its_party ON "kept_match" TO huskledger_app
  USING (party_id = current_party()) WITH CHECK (party_id = current_party());
