-- AlterTable
ALTER TABLE "hold" ADD COLUMN     "retest_id" UUID;

-- CreateTable
CREATE TABLE "retest" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "about" TEXT NOT NULL,
    "sample_id" UUID,
    "load_id" UUID,
    "first" DECIMAL NOT NULL,
    "first_version" INTEGER NOT NULL,
    "claimed" DECIMAL NOT NULL,
    "reason" TEXT NOT NULL,
    "rule" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "retest_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "retest_figure" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "retest_id" UUID NOT NULL,
    "tester" TEXT NOT NULL,
    "value" DECIMAL NOT NULL,
    "tested_by" TEXT NOT NULL,
    "method" TEXT,
    "part_id" UUID,
    "tested_on" DATE NOT NULL,
    "gross" DECIMAL,
    "tare" DECIMAL,
    "unit" TEXT,
    "scale_id" UUID,
    "scale_version" INTEGER,
    "charge" DECIMAL NOT NULL,
    "paid_by" TEXT NOT NULL,
    "report" CHAR(64) NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "retest_figure_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "retest_figure_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "figure_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "retest_figure_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "retest_proposal" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "retest_id" UUID NOT NULL,
    "ending" TEXT NOT NULL,
    "value" DECIMAL,
    "bearer" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "retest_proposal_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "retest_proposal_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "proposal_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "retest_proposal_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "retest_ending" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "retest_id" UUID NOT NULL,
    "ending" TEXT NOT NULL,
    "because" TEXT NOT NULL,
    "value" DECIMAL NOT NULL,
    "seller_bears" DECIMAL NOT NULL,
    "buyer_bears" DECIMAL NOT NULL,
    "changed" DECIMAL NOT NULL,
    "documents" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "retest_ending_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "retest_reminder" (
    "agreement_id" UUID NOT NULL,
    "retest_id" UUID NOT NULL,
    "due_on" DATE NOT NULL,
    "reminded_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "retest_reminder_pkey" PRIMARY KEY ("agreement_id","retest_id","due_on")
);

-- CreateIndex
CREATE INDEX "retest_agreement_id_sample_id_idx" ON "retest"("agreement_id", "sample_id");

-- CreateIndex
CREATE INDEX "retest_agreement_id_load_id_idx" ON "retest"("agreement_id", "load_id");

-- CreateIndex
CREATE INDEX "retest_figure_agreement_id_retest_id_idx" ON "retest_figure"("agreement_id", "retest_id");

-- CreateIndex
CREATE UNIQUE INDEX "retest_figure_answer_agreement_id_figure_id_key" ON "retest_figure_answer"("agreement_id", "figure_id");

-- CreateIndex
CREATE INDEX "retest_proposal_agreement_id_retest_id_idx" ON "retest_proposal"("agreement_id", "retest_id");

-- CreateIndex
CREATE UNIQUE INDEX "retest_proposal_answer_agreement_id_proposal_id_key" ON "retest_proposal_answer"("agreement_id", "proposal_id");

-- CreateIndex
CREATE UNIQUE INDEX "retest_ending_agreement_id_retest_id_key" ON "retest_ending"("agreement_id", "retest_id");

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_agreement_id_retest_id_fkey" FOREIGN KEY ("agreement_id", "retest_id") REFERENCES "retest"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest" ADD CONSTRAINT "retest_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest" ADD CONSTRAINT "retest_agreement_id_sample_id_fkey" FOREIGN KEY ("agreement_id", "sample_id") REFERENCES "sample"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest" ADD CONSTRAINT "retest_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_figure" ADD CONSTRAINT "retest_figure_agreement_id_retest_id_fkey" FOREIGN KEY ("agreement_id", "retest_id") REFERENCES "retest"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_figure" ADD CONSTRAINT "retest_figure_agreement_id_part_id_fkey" FOREIGN KEY ("agreement_id", "part_id") REFERENCES "sample_part"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_figure" ADD CONSTRAINT "retest_figure_scale_id_scale_version_fkey" FOREIGN KEY ("scale_id", "scale_version") REFERENCES "scale_version"("scale_id", "version") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_figure_answer" ADD CONSTRAINT "retest_figure_answer_agreement_id_figure_id_fkey" FOREIGN KEY ("agreement_id", "figure_id") REFERENCES "retest_figure"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_proposal" ADD CONSTRAINT "retest_proposal_agreement_id_retest_id_fkey" FOREIGN KEY ("agreement_id", "retest_id") REFERENCES "retest"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_proposal_answer" ADD CONSTRAINT "retest_proposal_answer_agreement_id_proposal_id_fkey" FOREIGN KEY ("agreement_id", "proposal_id") REFERENCES "retest_proposal"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_ending" ADD CONSTRAINT "retest_ending_agreement_id_retest_id_fkey" FOREIGN KEY ("agreement_id", "retest_id") REFERENCES "retest"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "retest_reminder" ADD CONSTRAINT "retest_reminder_agreement_id_retest_id_fkey" FOREIGN KEY ("agreement_id", "retest_id") REFERENCES "retest"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---- what the schema cannot say

ALTER TABLE "retest"
  ADD CONSTRAINT retest_subject CHECK ((about = 'weight') = (load_id IS NOT NULL) AND (about = 'weight') = (sample_id IS NULL)),
  ADD CONSTRAINT retest_claims_another CHECK (claimed <> first);
ALTER TABLE "retest_figure"
  ADD CONSTRAINT retest_figure_tester CHECK (tester IN ('laboratory', 'seller', 'buyer', 'referee', 'second-scale')),
  ADD CONSTRAINT retest_figure_scale CHECK (
    (tester = 'second-scale') = (gross IS NOT NULL) AND (gross IS NULL) = (tare IS NULL)
    AND (gross IS NULL) = (unit IS NULL) AND (gross IS NULL) = (scale_id IS NULL) AND (gross IS NULL) = (scale_version IS NULL)),
  ADD CONSTRAINT retest_figure_cost CHECK (charge >= 0 AND paid_by IN ('seller', 'buyer'));
ALTER TABLE "retest_figure_answer" ADD CONSTRAINT retest_figure_answer_word CHECK (answer IN ('confirm', 'contest', 'withdraw'));
ALTER TABLE "retest_proposal"
  ADD CONSTRAINT retest_proposal_ending CHECK (
    ending IN ('withdraw', 'agree') AND (ending = 'agree') = (value IS NOT NULL) AND bearer IN ('seller', 'buyer', 'split'));
ALTER TABLE "retest_proposal_answer"
  ADD CONSTRAINT retest_proposal_answer_word CHECK (answer IN ('confirmed', 'refused', 'withdrawn'));
ALTER TABLE "retest_ending"
  ADD CONSTRAINT retest_ending_word CHECK (
    ending IN ('decided', 'withdrawn', 'agreed') AND seller_bears >= 0 AND buyer_bears >= 0);
ALTER TABLE "hold" ADD CONSTRAINT hold_waits_for_one CHECK (correction_id IS NULL OR retest_id IS NULL);

-- One open question a figure: two that were asked at once would be decided twice.
CREATE FUNCTION check_retest() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT FROM retest r WHERE r.agreement_id = NEW.agreement_id AND r.about = NEW.about
      AND r.sample_id IS NOT DISTINCT FROM NEW.sample_id AND r.load_id IS NOT DISTINCT FROM NEW.load_id
      AND NOT EXISTS (SELECT FROM retest_ending e WHERE e.agreement_id = r.agreement_id AND e.retest_id = r.id)
  ) THEN
    RAISE EXCEPTION 'This figure is questioned already' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER retest_checked BEFORE INSERT ON "retest" FOR EACH ROW EXECUTE FUNCTION check_retest();

CREATE FUNCTION check_retest_open() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (SELECT FROM retest_ending WHERE agreement_id = NEW.agreement_id AND retest_id = NEW.retest_id) THEN
    RAISE EXCEPTION 'This question is decided' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER retest_figure_checked BEFORE INSERT ON "retest_figure" FOR EACH ROW EXECUTE FUNCTION check_retest_open();
CREATE TRIGGER retest_proposal_checked BEFORE INSERT ON "retest_proposal" FOR EACH ROW EXECUTE FUNCTION check_retest_open();

-- A figure that one side entered is for the other to confirm.
CREATE FUNCTION check_retest_figure_answer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF (NEW.answer = 'withdraw') <> EXISTS (
    SELECT FROM retest_figure WHERE agreement_id = NEW.agreement_id AND id = NEW.figure_id AND by_party_id = NEW.by_party_id
  ) THEN
    RAISE EXCEPTION 'The other side confirms or contests a figure; whoever entered it takes it back' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER retest_figure_answer_checked BEFORE INSERT ON "retest_figure_answer"
  FOR EACH ROW EXECUTE FUNCTION check_retest_figure_answer();

CREATE FUNCTION check_retest_proposal_answer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  author uuid;
BEGIN
  SELECT by_party_id INTO author FROM retest_proposal WHERE agreement_id = NEW.agreement_id AND id = NEW.proposal_id;
  IF (NEW.answer = 'withdrawn') <> (NEW.by_party_id = author) THEN
    RAISE EXCEPTION 'The other side confirms or refuses an ending; whoever proposed it takes it back'
      USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER retest_proposal_answer_checked BEFORE INSERT ON "retest_proposal_answer"
  FOR EACH ROW EXECUTE FUNCTION check_retest_proposal_answer();

-- Without a rule's decision, a question ends by what both sides confirmed.
CREATE FUNCTION check_retest_ending() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.ending <> 'decided' AND NOT EXISTS (
    SELECT FROM retest_proposal p
    JOIN retest_proposal_answer a ON a.agreement_id = p.agreement_id AND a.proposal_id = p.id AND a.answer = 'confirmed'
    WHERE p.agreement_id = NEW.agreement_id AND p.retest_id = NEW.retest_id
      AND p.ending = CASE NEW.ending WHEN 'withdrawn' THEN 'withdraw' ELSE 'agree' END
  ) THEN
    RAISE EXCEPTION 'Both sides confirm that a question is withdrawn or agreed on' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER retest_ending_checked BEFORE INSERT ON "retest_ending" FOR EACH ROW EXECUTE FUNCTION check_retest_ending();

-- ---- nothing written is changed, nobody sees another's rows, and nobody speaks for another

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'retest', 'retest_figure', 'retest_figure_answer', 'retest_proposal', 'retest_proposal_answer', 'retest_ending',
    'retest_reminder'
  ] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO huskledger_app', table_name);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app
       USING (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))
       WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY[
    'retest', 'retest_figure', 'retest_figure_answer', 'retest_proposal', 'retest_proposal_answer'
  ] LOOP
    EXECUTE format(
      'CREATE POLICY by_its_author ON %I AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (by_party_id = current_party())',
      table_name);
  END LOOP;
END $$;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;

-- What the two ask and pay each other is between them: an adviser reads none of it in the journal.
CREATE POLICY questions_are_between_two ON "journal_entry" AS RESTRICTIVE FOR SELECT TO huskledger_app USING (
  kind NOT LIKE 'retest%' OR agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));

-- Time passes for every question, whoever is signed in: the program asks at its door which are open, and nothing else.
CREATE FUNCTION open_retests() RETURNS TABLE (agreement_id uuid, party_id uuid, person_id uuid)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT DISTINCT ON (r.agreement_id) r.agreement_id, r.by_party_id, r.recorded_by FROM retest r
  WHERE NOT EXISTS (SELECT FROM retest_ending e WHERE e.agreement_id = r.agreement_id AND e.retest_id = r.id)
  ORDER BY r.agreement_id, r.recorded_at, r.id
$$;
REVOKE ALL ON FUNCTION open_retests() FROM PUBLIC;
GRANT EXECUTE ON FUNCTION open_retests() TO huskledger_door;

-- What a question holds is held for whoever asked it, also where the other side issues the invoice afterwards.
DROP POLICY by_its_author ON "hold";
CREATE POLICY by_its_author ON "hold" AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (
  CASE WHEN retest_id IS NULL THEN by_party_id = current_party() ELSE by_party_id = (
    SELECT r.by_party_id FROM retest r WHERE r.agreement_id = hold.agreement_id AND r.id = hold.retest_id) END);
