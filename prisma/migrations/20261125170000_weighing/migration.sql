-- DropIndex
DROP INDEX "load_agreement_id_ticket_key";

-- DropIndex
DROP INDEX "quote_agreement_id_series_id_quoted_on_key";

-- DropIndex
DROP INDEX "result_agreement_id_sample_id_key";

-- AlterTable
ALTER TABLE "choice" ADD COLUMN     "went_to" TEXT;

-- AlterTable
ALTER TABLE "load" ADD COLUMN     "gross_scale_id" UUID,
ADD COLUMN     "moisture_reading" DECIMAL,
ADD COLUMN     "photo" CHAR(64),
ADD COLUMN     "plate" TEXT,
ADD COLUMN     "tare_at" TIMESTAMPTZ(6),
ADD COLUMN     "tare_scale_id" UUID,
ADD COLUMN     "weigher" TEXT;

-- AlterTable
ALTER TABLE "quote" ADD COLUMN     "reason" TEXT,
ADD COLUMN     "version" INTEGER NOT NULL DEFAULT 1;

-- AlterTable
ALTER TABLE "result" ADD COLUMN     "dry_matter_method" TEXT,
ADD COLUMN     "entered_by" UUID,
ADD COLUMN     "reason" TEXT,
ADD COLUMN     "report" CHAR(64),
ADD COLUMN     "version" INTEGER NOT NULL DEFAULT 1;

-- AlterTable
ALTER TABLE "settlement" ADD COLUMN     "load_version" INTEGER NOT NULL DEFAULT 1;

-- CreateTable
CREATE TABLE "series_terms" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "series_id" UUID NOT NULL,
    "source" TEXT NOT NULL,
    "entered_by" TEXT NOT NULL,
    "contest_days" INTEGER NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "series_terms_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "load_version" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "load_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "is_void" BOOLEAN NOT NULL,
    "reason" TEXT NOT NULL,
    "ticket" TEXT NOT NULL,
    "delivered_at" TIMESTAMPTZ(6) NOT NULL,
    "delivered_on" DATE NOT NULL,
    "gross" DECIMAL NOT NULL,
    "tare" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "distance" DECIMAL,
    "distance_unit" TEXT,
    "truck" TEXT,
    "tare_at" TIMESTAMPTZ(6),
    "gross_scale_id" UUID,
    "tare_scale_id" UUID,
    "moisture_reading" DECIMAL,
    "plate" TEXT,
    "photo" CHAR(64),
    "weigher" TEXT,
    "sample_id" UUID,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "load_version_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "ticket_taken" (
    "agreement_id" UUID NOT NULL,
    "ticket" TEXT NOT NULL,
    "load_id" UUID NOT NULL,

    CONSTRAINT "ticket_taken_pkey" PRIMARY KEY ("agreement_id","ticket")
);

-- CreateTable
CREATE TABLE "open_weighing" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "ticket" TEXT NOT NULL,
    "weighed_at" TIMESTAMPTZ(6) NOT NULL,
    "gross" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "truck" TEXT,
    "plate" TEXT,
    "scale_id" UUID,
    "sample" TEXT,
    "weigher" TEXT,
    "moisture_reading" DECIMAL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "open_weighing_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "ticket_series" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "prefix" TEXT NOT NULL,
    "width" INTEGER NOT NULL,
    "first_number" INTEGER NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "ticket_series_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "spent_ticket" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "ticket" TEXT NOT NULL,
    "use" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "spent_ticket_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "scale" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "scale_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "scale_version" (
    "scale_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "name" TEXT NOT NULL,
    "place" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "capacity" DECIMAL NOT NULL,
    "division" DECIMAL NOT NULL,
    "accuracy_class" TEXT NOT NULL,
    "is_legal_for_trade" BOOLEAN NOT NULL,
    "tested_on" DATE,
    "test_due_on" DATE,
    "certificate" TEXT,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "scale_version_pkey" PRIMARY KEY ("scale_id","version")
);

-- CreateTable
CREATE TABLE "sample_taking" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "sample_id" UUID NOT NULL,
    "taken_at" TIMESTAMPTZ(6) NOT NULL,
    "taken_by" TEXT NOT NULL,
    "how" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "sample_taking_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "sample_part" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "sample_id" UUID NOT NULL,
    "part" TEXT NOT NULL,
    "seal" TEXT NOT NULL,
    "is_airtight" BOOLEAN NOT NULL,
    "kept_where" TEXT NOT NULL,
    "kept_until" DATE,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "sample_part_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "part_handover" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "part_id" UUID NOT NULL,
    "handed_at" TIMESTAMPTZ(6) NOT NULL,
    "to_whom" TEXT NOT NULL,
    "kept_where" TEXT NOT NULL,
    "kept_until" DATE,
    "is_seal_intact" BOOLEAN NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "part_handover_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "result_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "result_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "result_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "laboratory_access" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "since" TIMESTAMPTZ(6) NOT NULL,
    "ended_at" TIMESTAMPTZ(6),

    CONSTRAINT "laboratory_access_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "record_file" (
    "agreement_id" UUID NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "bytes" BYTEA NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "record_file_pkey" PRIMARY KEY ("agreement_id","fingerprint")
);

-- CreateTable
CREATE TABLE "correction" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "subject" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "document" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "correction_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "correction_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "correction_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "correction_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "api_token" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "scopes" TEXT NOT NULL,
    "token_hash" CHAR(64) NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL,
    "created_by" UUID NOT NULL,
    "used_at" TIMESTAMPTZ(6),
    "revoked_at" TIMESTAMPTZ(6),

    CONSTRAINT "api_token_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "load_version_agreement_id_load_id_version_key" ON "load_version"("agreement_id", "load_id", "version");

-- CreateIndex
CREATE UNIQUE INDEX "ticket_taken_agreement_id_load_id_key" ON "ticket_taken"("agreement_id", "load_id");

-- CreateIndex
CREATE UNIQUE INDEX "open_weighing_agreement_id_ticket_key" ON "open_weighing"("agreement_id", "ticket");

-- CreateIndex
CREATE UNIQUE INDEX "ticket_series_agreement_id_prefix_key" ON "ticket_series"("agreement_id", "prefix");

-- CreateIndex
CREATE UNIQUE INDEX "spent_ticket_agreement_id_ticket_key" ON "spent_ticket"("agreement_id", "ticket");

-- CreateIndex
CREATE INDEX "scale_party_id_idx" ON "scale"("party_id");

-- CreateIndex
CREATE UNIQUE INDEX "sample_taking_agreement_id_sample_id_key" ON "sample_taking"("agreement_id", "sample_id");

-- CreateIndex
CREATE INDEX "sample_part_agreement_id_sample_id_idx" ON "sample_part"("agreement_id", "sample_id");

-- CreateIndex
CREATE UNIQUE INDEX "sample_part_agreement_id_seal_key" ON "sample_part"("agreement_id", "seal");

-- CreateIndex
CREATE INDEX "part_handover_agreement_id_part_id_idx" ON "part_handover"("agreement_id", "part_id");

-- CreateIndex
CREATE INDEX "result_answer_agreement_id_result_id_idx" ON "result_answer"("agreement_id", "result_id");

-- CreateIndex
CREATE INDEX "laboratory_access_party_id_idx" ON "laboratory_access"("party_id");

-- CreateIndex
CREATE INDEX "correction_agreement_id_subject_id_idx" ON "correction"("agreement_id", "subject_id");

-- CreateIndex
CREATE UNIQUE INDEX "correction_answer_agreement_id_correction_id_key" ON "correction_answer"("agreement_id", "correction_id");

-- CreateIndex
CREATE UNIQUE INDEX "api_token_token_hash_key" ON "api_token"("token_hash");

-- CreateIndex
CREATE INDEX "api_token_party_id_idx" ON "api_token"("party_id");

-- CreateIndex
CREATE INDEX "load_agreement_id_ticket_idx" ON "load"("agreement_id", "ticket");

-- CreateIndex
CREATE UNIQUE INDEX "quote_agreement_id_series_id_quoted_on_version_key" ON "quote"("agreement_id", "series_id", "quoted_on", "version");

-- CreateIndex
CREATE UNIQUE INDEX "result_agreement_id_sample_id_version_key" ON "result"("agreement_id", "sample_id", "version");

-- AddForeignKey
ALTER TABLE "series_terms" ADD CONSTRAINT "series_terms_agreement_id_series_id_fkey" FOREIGN KEY ("agreement_id", "series_id") REFERENCES "series"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load" ADD CONSTRAINT "load_gross_scale_id_fkey" FOREIGN KEY ("gross_scale_id") REFERENCES "scale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load" ADD CONSTRAINT "load_tare_scale_id_fkey" FOREIGN KEY ("tare_scale_id") REFERENCES "scale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load_version" ADD CONSTRAINT "load_version_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load_version" ADD CONSTRAINT "load_version_agreement_id_sample_id_fkey" FOREIGN KEY ("agreement_id", "sample_id") REFERENCES "sample"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load_version" ADD CONSTRAINT "load_version_gross_scale_id_fkey" FOREIGN KEY ("gross_scale_id") REFERENCES "scale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load_version" ADD CONSTRAINT "load_version_tare_scale_id_fkey" FOREIGN KEY ("tare_scale_id") REFERENCES "scale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "open_weighing" ADD CONSTRAINT "open_weighing_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "open_weighing" ADD CONSTRAINT "open_weighing_scale_id_fkey" FOREIGN KEY ("scale_id") REFERENCES "scale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "ticket_series" ADD CONSTRAINT "ticket_series_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "spent_ticket" ADD CONSTRAINT "spent_ticket_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "scale" ADD CONSTRAINT "scale_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "scale_version" ADD CONSTRAINT "scale_version_scale_id_fkey" FOREIGN KEY ("scale_id") REFERENCES "scale"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sample_taking" ADD CONSTRAINT "sample_taking_agreement_id_sample_id_fkey" FOREIGN KEY ("agreement_id", "sample_id") REFERENCES "sample"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sample_part" ADD CONSTRAINT "sample_part_agreement_id_sample_id_fkey" FOREIGN KEY ("agreement_id", "sample_id") REFERENCES "sample"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "part_handover" ADD CONSTRAINT "part_handover_agreement_id_part_id_fkey" FOREIGN KEY ("agreement_id", "part_id") REFERENCES "sample_part"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "result_answer" ADD CONSTRAINT "result_answer_agreement_id_result_id_fkey" FOREIGN KEY ("agreement_id", "result_id") REFERENCES "result"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "laboratory_access" ADD CONSTRAINT "laboratory_access_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "laboratory_access" ADD CONSTRAINT "laboratory_access_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "record_file" ADD CONSTRAINT "record_file_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "correction" ADD CONSTRAINT "correction_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "correction_answer" ADD CONSTRAINT "correction_answer_agreement_id_correction_id_fkey" FOREIGN KEY ("agreement_id", "correction_id") REFERENCES "correction"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "api_token" ADD CONSTRAINT "api_token_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
-- ------------------------------------------------------------------ what Prisma's schema cannot say

-- ---- figures and words that cannot be

ALTER TABLE "load_version"
  ADD CONSTRAINT load_version_weights CHECK (tare >= 0 AND gross > tare),
  ADD CONSTRAINT load_version_unit CHECK (unit IN ('lb', 'kg', 'short-ton', 'tonne')),
  ADD CONSTRAINT load_version_distance CHECK (
    (distance IS NULL) = (distance_unit IS NULL) AND (distance IS NULL OR (distance >= 0 AND distance_unit IN ('mile', 'km')))
  ),
  ADD CONSTRAINT load_version_counts CHECK (version >= 2);
ALTER TABLE "open_weighing"
  ADD CONSTRAINT open_weighing_weight CHECK (gross > 0),
  ADD CONSTRAINT open_weighing_unit CHECK (unit IN ('lb', 'kg', 'short-ton', 'tonne'));
ALTER TABLE "ticket_series"
  ADD CONSTRAINT ticket_series_counts CHECK (width BETWEEN 0 AND 12 AND first_number >= 0);
ALTER TABLE "spent_ticket" ADD CONSTRAINT spent_ticket_use CHECK (use IN ('void', 'elsewhere'));
ALTER TABLE "scale_version"
  ADD CONSTRAINT scale_version_figures CHECK (capacity > 0 AND division > 0 AND division <= capacity),
  ADD CONSTRAINT scale_version_unit CHECK (unit IN ('lb', 'kg', 'short-ton', 'tonne')),
  ADD CONSTRAINT scale_version_counts CHECK (version >= 1);
ALTER TABLE "sample_part" ADD CONSTRAINT sample_part_word CHECK (part IN ('laboratory', 'seller', 'buyer', 'referee'));
ALTER TABLE "result"
  ADD CONSTRAINT result_counts CHECK (version >= 1 AND (version = 1) = (reason IS NULL));
ALTER TABLE "quote"
  ADD CONSTRAINT quote_counts CHECK (version >= 1 AND (version = 1) = (reason IS NULL));
ALTER TABLE "choice" ADD CONSTRAINT choice_went_to CHECK (went_to IS NULL OR choice = 'refuse');
ALTER TABLE "result_answer" ADD CONSTRAINT result_answer_word CHECK (answer IN ('confirm', 'contest'));
ALTER TABLE "series_terms"
  ADD CONSTRAINT series_terms_words CHECK (entered_by IN ('both', 'seller', 'buyer') AND contest_days BETWEEN 0 AND 999);
ALTER TABLE "correction" ADD CONSTRAINT correction_subject CHECK (subject IN ('load', 'result', 'quote', 'allowance'));
ALTER TABLE "correction_answer"
  ADD CONSTRAINT correction_answer_word CHECK (answer IN ('confirmed', 'refused', 'withdrawn'));
ALTER TABLE "record_file"
  ADD CONSTRAINT record_file_kind CHECK (kind IN ('application/pdf', 'image/png', 'image/jpeg')),
  ADD CONSTRAINT record_file_size CHECK (octet_length(bytes) BETWEEN 1 AND 10485760),
  ADD CONSTRAINT record_file_fingerprint CHECK (fingerprint = encode(sha256(bytes), 'hex'));
ALTER TABLE "settlement" ADD CONSTRAINT settlement_load_version CHECK (load_version >= 1);

-- ---- a load as it stands now

-- Each reader sees through it what it may see of the tables themselves.
CREATE VIEW "current_load" WITH (security_invoker = true) AS
  SELECT l.agreement_id, l.id, coalesce(v.version, 1) AS version, coalesce(v.is_void, false) AS is_void,
    CASE WHEN v.id IS NULL THEN l.ticket ELSE v.ticket END AS ticket,
    CASE WHEN v.id IS NULL THEN l.delivered_at ELSE v.delivered_at END AS delivered_at,
    CASE WHEN v.id IS NULL THEN l.delivered_on ELSE v.delivered_on END AS delivered_on,
    CASE WHEN v.id IS NULL THEN l.gross ELSE v.gross END AS gross,
    CASE WHEN v.id IS NULL THEN l.tare ELSE v.tare END AS tare,
    CASE WHEN v.id IS NULL THEN l.unit ELSE v.unit END AS unit,
    CASE WHEN v.id IS NULL THEN l.distance ELSE v.distance END AS distance,
    CASE WHEN v.id IS NULL THEN l.distance_unit ELSE v.distance_unit END AS distance_unit,
    CASE WHEN v.id IS NULL THEN l.truck ELSE v.truck END AS truck,
    CASE WHEN v.id IS NULL THEN l.tare_at ELSE v.tare_at END AS tare_at,
    CASE WHEN v.id IS NULL THEN l.gross_scale_id ELSE v.gross_scale_id END AS gross_scale_id,
    CASE WHEN v.id IS NULL THEN l.tare_scale_id ELSE v.tare_scale_id END AS tare_scale_id,
    CASE WHEN v.id IS NULL THEN l.moisture_reading ELSE v.moisture_reading END AS moisture_reading,
    CASE WHEN v.id IS NULL THEN l.plate ELSE v.plate END AS plate,
    CASE WHEN v.id IS NULL THEN l.weigher ELSE v.weigher END AS weigher,
    CASE WHEN v.id IS NULL THEN l.photo ELSE v.photo END AS photo,
    CASE WHEN v.id IS NULL THEN sl.sample_id ELSE v.sample_id END AS sample_id,
    l.recorded_by
  FROM load l
  LEFT JOIN sample_load sl ON sl.agreement_id = l.agreement_id AND sl.load_id = l.id
  LEFT JOIN LATERAL (
    SELECT * FROM load_version WHERE agreement_id = l.agreement_id AND load_id = l.id ORDER BY version DESC LIMIT 1
  ) v ON true;

-- ---- a ticket number belongs to one load

INSERT INTO ticket_taken (agreement_id, ticket, load_id) SELECT agreement_id, ticket, id FROM load;

CREATE FUNCTION take_tickets() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF TG_TABLE_NAME = 'load' THEN
    INSERT INTO ticket_taken (agreement_id, ticket, load_id) SELECT agreement_id, ticket, id FROM new_tickets;
  ELSE
    DELETE FROM ticket_taken t USING new_tickets n WHERE t.agreement_id = n.agreement_id AND t.load_id = n.load_id;
    INSERT INTO ticket_taken (agreement_id, ticket, load_id) SELECT agreement_id, ticket, load_id FROM new_tickets;
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER load_ticket_taken AFTER INSERT ON "load"
  REFERENCING NEW TABLE AS new_tickets FOR EACH STATEMENT EXECUTE FUNCTION take_tickets();
CREATE TRIGGER load_version_ticket_taken AFTER INSERT ON "load_version"
  REFERENCING NEW TABLE AS new_tickets FOR EACH STATEMENT EXECUTE FUNCTION take_tickets();

-- ---- nothing written is changed

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'load_version', 'open_weighing', 'ticket_series', 'spent_ticket', 'scale', 'scale_version', 'sample_taking',
    'sample_part', 'part_handover', 'result_answer', 'record_file', 'series_terms', 'correction',
    'correction_answer'
  ] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO huskledger_app', table_name);
  END LOOP;
END $$;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
GRANT SELECT ON "current_load", "ticket_taken" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE (ended_at) ON "laboratory_access" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE (revoked_at) ON "api_token" TO huskledger_app;
GRANT SELECT, UPDATE (used_at) ON "api_token" TO huskledger_door;

-- ---- nobody sees another's rows

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'load_version', 'open_weighing', 'ticket_series', 'spent_ticket', 'scale', 'scale_version', 'sample_taking',
    'sample_part', 'part_handover', 'result_answer', 'record_file', 'series_terms', 'correction',
    'correction_answer', 'laboratory_access', 'api_token', 'ticket_taken'
  ] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY[
    'load_version', 'open_weighing', 'ticket_series', 'spent_ticket', 'sample_taking', 'sample_part', 'part_handover',
    'result_answer', 'record_file', 'series_terms', 'correction', 'correction_answer', 'ticket_taken'
  ] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app USING (agreement_id IN (SELECT id FROM agreement))
       WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
END $$;

CREATE POLICY of_its_party ON "api_token" TO huskledger_app
  USING (party_id = current_party()) WITH CHECK (party_id = current_party());
CREATE POLICY at_the_door ON "api_token" TO huskledger_door USING (true) WITH CHECK (true);

-- A scale is its owner's; whoever has an agreement with the owner sees what stands on their tickets.
CREATE POLICY of_its_party ON "scale" TO huskledger_app
  USING (party_id = current_party()) WITH CHECK (party_id = current_party());
CREATE POLICY seen_by_partners ON "scale" FOR SELECT TO huskledger_app
  USING (party_id IN (SELECT seller_id FROM agreement UNION ALL SELECT buyer_id FROM agreement));
CREATE POLICY of_its_scale ON "scale_version" TO huskledger_app
  USING (scale_id IN (SELECT id FROM scale))
  WITH CHECK (scale_id IN (SELECT id FROM scale WHERE party_id = current_party()));

-- Nobody answers or proposes for another party.
CREATE POLICY by_its_author ON "result_answer" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (party_id = current_party());
CREATE POLICY by_its_author ON "correction" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (by_party_id = current_party());
CREATE POLICY by_its_author ON "correction_answer" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (by_party_id = current_party());

-- Whoever proposed a correction cannot confirm it as well.
CREATE FUNCTION check_correction_answer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  author uuid;
BEGIN
  SELECT by_party_id INTO author FROM correction WHERE agreement_id = NEW.agreement_id AND id = NEW.correction_id;
  IF (NEW.answer = 'withdrawn') <> (NEW.by_party_id = author) THEN
    RAISE EXCEPTION 'The other side confirms or refuses a correction; whoever proposed it withdraws it'
      USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER correction_answer_checked BEFORE INSERT ON "correction_answer" FOR EACH ROW EXECUTE FUNCTION check_correction_answer();

-- ---- a laboratory that enters its own results

-- It sees the samples of the agreements that let it, their results and seals, and no weight, price or term.
CREATE FUNCTION works_for(wanted uuid) RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (
    SELECT FROM laboratory_access
    WHERE agreement_id = wanted AND party_id = current_party() AND ended_at IS NULL
  )
$$;
CREATE POLICY of_its_parties ON "laboratory_access" TO huskledger_app
  USING (agreement_id IN (SELECT id FROM agreement) OR party_id = current_party())
  WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));
CREATE POLICY for_its_laboratory ON "sample" FOR SELECT TO huskledger_app USING (works_for(agreement_id));
CREATE POLICY for_its_laboratory ON "sample_part" FOR SELECT TO huskledger_app USING (works_for(agreement_id));
CREATE POLICY for_its_laboratory ON "result" FOR SELECT TO huskledger_app USING (works_for(agreement_id));
CREATE POLICY by_its_laboratory ON "result" FOR INSERT TO huskledger_app
  WITH CHECK (works_for(agreement_id) AND entered_by = current_party());
CREATE POLICY by_its_laboratory ON "record_file" FOR INSERT TO huskledger_app WITH CHECK (works_for(agreement_id));
CREATE POLICY by_its_laboratory ON "journal_entry" FOR INSERT TO huskledger_app
  WITH CHECK (works_for(agreement_id) AND kind = 'result');

-- Where an agreement's chain stands, for whoever may add to it: a laboratory reads nothing else of the journal.
CREATE FUNCTION chain_head(wanted uuid) RETURNS TABLE (sequence int, fingerprint char(64))
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT sequence, fingerprint FROM journal_entry
  WHERE agreement_id = wanted AND (
    works_for(wanted)
    OR EXISTS (SELECT FROM agreement WHERE id = wanted AND current_party() IN (seller_id, buyer_id))
  )
  ORDER BY sequence DESC LIMIT 1
$$;
