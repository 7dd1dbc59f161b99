-- AlterTable
ALTER TABLE "hold" ADD COLUMN     "carried_from" UUID;

-- AlterTable
ALTER TABLE "money_document" ADD COLUMN     "of_agreement_id" UUID,
ADD COLUMN     "season_rule" TEXT;

-- CreateTable
CREATE TABLE "season_note" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "load_id" UUID,
    "of_agreement_id" UUID,
    "of_load_id" UUID,
    "amount" DECIMAL NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "season_note_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "season_note_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "note_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "document_id" UUID,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "season_note_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateIndex
CREATE UNIQUE INDEX "season_note_answer_agreement_id_note_id_key" ON "season_note_answer"("agreement_id", "note_id");

-- CreateIndex
CREATE INDEX "money_document_of_agreement_id_idx" ON "money_document"("of_agreement_id");

-- AddForeignKey
ALTER TABLE "money_document" ADD CONSTRAINT "money_document_of_agreement_id_fkey" FOREIGN KEY ("of_agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_note" ADD CONSTRAINT "season_note_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_note" ADD CONSTRAINT "season_note_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_note" ADD CONSTRAINT "season_note_of_agreement_id_fkey" FOREIGN KEY ("of_agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_note" ADD CONSTRAINT "season_note_of_agreement_id_of_load_id_fkey" FOREIGN KEY ("of_agreement_id", "of_load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_note_answer" ADD CONSTRAINT "season_note_answer_agreement_id_note_id_fkey" FOREIGN KEY ("agreement_id", "note_id") REFERENCES "season_note"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "season_note_answer" ADD CONSTRAINT "season_note_answer_agreement_id_document_id_fkey" FOREIGN KEY ("agreement_id", "document_id") REFERENCES "money_document"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ---- what the schema cannot say

ALTER TABLE "money_document"
  ADD CONSTRAINT money_document_season CHECK (
    season_rule IN ('shortfall', 'surplus', 'true-up', 'brought-forward', 'past-season')),
  ADD CONSTRAINT money_document_of_season CHECK (
    (of_agreement_id IS NOT NULL) = (season_rule IS NOT NULL AND season_rule IN ('brought-forward', 'past-season')));
-- What is brought forward stays due on the day on which it was due, though it is issued anew.
ALTER TABLE "money_document" DROP CONSTRAINT money_document_due;
ALTER TABLE "money_document" ADD CONSTRAINT money_document_due CHECK (
  due_on >= issued_on OR (season_rule IS NOT NULL AND season_rule = 'brought-forward'));
ALTER TABLE "season_note"
  ADD CONSTRAINT season_note_kind CHECK (kind IN ('difference', 'past-season')),
  ADD CONSTRAINT season_note_subject CHECK (
    (kind = 'past-season') = (of_agreement_id IS NOT NULL) AND (kind = 'difference' OR load_id IS NULL)
    AND (of_load_id IS NULL OR of_agreement_id IS NOT NULL)),
  ADD CONSTRAINT season_note_amount CHECK (kind = 'difference' OR amount <> 0);
ALTER TABLE "season_note_answer"
  ADD CONSTRAINT season_note_answer_word CHECK (answer IN ('confirmed', 'refused', 'withdrawn')),
  ADD CONSTRAINT season_note_answer_document CHECK (document_id IS NULL OR answer = 'confirmed');

-- Whether an agreement takes up what is left of another: the same two parties, and that one's season sealed.
CREATE FUNCTION follows_sealed(follower uuid, sealed uuid) RETURNS boolean
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (
    SELECT FROM agreement f JOIN agreement s ON s.seller_id = f.seller_id AND s.buyer_id = f.buyer_id AND s.id <> f.id
    JOIN season_seal z ON z.agreement_id = s.id
    WHERE f.id = follower AND s.id = sealed)
$$;
REVOKE ALL ON FUNCTION follows_sealed(uuid, uuid) FROM PUBLIC;

CREATE FUNCTION check_season_document() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  signed jsonb;
BEGIN
  IF NEW.of_agreement_id IS NULL THEN RETURN NEW; END IF;
  IF NOT follows_sealed(NEW.agreement_id, NEW.of_agreement_id) THEN
    RAISE EXCEPTION 'Only a sealed season of the same two parties is taken up' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  SELECT c.statement::jsonb INTO signed FROM season_seal z
  JOIN season_close c ON c.agreement_id = z.agreement_id AND c.id = z.close_id WHERE z.agreement_id = NEW.of_agreement_id;
  IF signed ->> 'currency' <> NEW.currency THEN
    RAISE EXCEPTION 'A sealed season is taken up in its own currency' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF NEW.season_rule = 'brought-forward' THEN
    -- Whoever else brings it forward waits, and then finds that it was done.
    PERFORM pg_advisory_xact_lock(hashtextextended('brought forward ' || NEW.of_agreement_id::text, 0));
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER money_document_season_checked BEFORE INSERT ON "money_document" FOR EACH ROW EXECUTE FUNCTION check_season_document();

-- What is brought forward is, all together and in one agreement, the balance that both signed: twice would be owed twice.
CREATE FUNCTION check_brought_forward() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (
    SELECT FROM season_seal z
    JOIN season_close c ON c.agreement_id = z.agreement_id AND c.id = z.close_id
    WHERE z.agreement_id = NEW.of_agreement_id AND (c.statement::jsonb #>> '{money,balance}')::numeric = (
      SELECT sum(payable) FROM money_document
      WHERE of_agreement_id = NEW.of_agreement_id AND season_rule = 'brought-forward'
      HAVING count(DISTINCT agreement_id) = 1)
  ) THEN
    RAISE EXCEPTION 'What is brought forward is the balance that both signed, once' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER money_document_brought_forward AFTER INSERT ON "money_document" DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW WHEN (NEW.season_rule = 'brought-forward') EXECUTE FUNCTION check_brought_forward();

-- Money for a sealed season is what both sides agreed to.
CREATE FUNCTION check_past_season() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (
    SELECT FROM season_note_answer a JOIN season_note n ON n.agreement_id = a.agreement_id AND n.id = a.note_id
    WHERE a.agreement_id = NEW.agreement_id AND a.document_id = NEW.id AND a.answer = 'confirmed'
      AND n.kind = 'past-season' AND n.of_agreement_id = NEW.of_agreement_id AND n.amount = NEW.payable
  ) THEN
    RAISE EXCEPTION 'Both sides agree to money for a sealed season' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER money_document_past_season AFTER INSERT ON "money_document" DEFERRABLE INITIALLY DEFERRED
  FOR EACH ROW WHEN (NEW.season_rule = 'past-season') EXECUTE FUNCTION check_past_season();

CREATE FUNCTION check_season_note() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.of_agreement_id IS NOT NULL AND NOT follows_sealed(NEW.agreement_id, NEW.of_agreement_id) THEN
    RAISE EXCEPTION 'Only a sealed season of the same two parties is taken up' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER season_note_checked BEFORE INSERT ON "season_note" FOR EACH ROW EXECUTE FUNCTION check_season_note();

CREATE FUNCTION check_season_note_answer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  asked season_note%ROWTYPE;
BEGIN
  SELECT * INTO asked FROM season_note WHERE agreement_id = NEW.agreement_id AND id = NEW.note_id;
  IF (NEW.answer = 'withdrawn') <> (NEW.by_party_id = asked.by_party_id) THEN
    RAISE EXCEPTION 'The other side confirms or refuses a note; whoever wrote it takes it back'
      USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF (NEW.document_id IS NOT NULL) <> (NEW.answer = 'confirmed' AND asked.kind = 'past-season') THEN
    RAISE EXCEPTION 'Money follows where both agree to it for a sealed season, and nowhere else'
      USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER season_note_answer_checked BEFORE INSERT ON "season_note_answer"
  FOR EACH ROW EXECUTE FUNCTION check_season_note_answer();

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY['season_note', 'season_note_answer'] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO huskledger_app', table_name);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app
       USING (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))
       WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
    EXECUTE format(
      'CREATE POLICY by_its_author ON %I AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (by_party_id = current_party())',
      table_name);
  END LOOP;
END $$;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;

CREATE POLICY season_notes_are_between_two ON "journal_entry" AS RESTRICTIVE FOR SELECT TO huskledger_app USING (
  kind NOT LIKE 'season-note%' OR agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));

-- What was held in a sealed season is held for the same side on the note that brings its balance forward, whoever does that.
CREATE FUNCTION carried_hold_author(note_agreement uuid, note uuid, carried uuid) RETURNS uuid
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT h.by_party_id FROM money_document d JOIN hold h ON h.agreement_id = d.of_agreement_id AND h.id = carried
  WHERE d.agreement_id = note_agreement AND d.id = note AND d.season_rule = 'brought-forward'
    AND NOT EXISTS (SELECT FROM hold_end e WHERE e.agreement_id = h.agreement_id AND e.hold_id = h.id)
$$;
REVOKE ALL ON FUNCTION carried_hold_author(uuid, uuid, uuid) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION carried_hold_author(uuid, uuid, uuid) TO huskledger_app;
DROP POLICY by_its_author ON "hold";
CREATE POLICY by_its_author ON "hold" AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (
  by_party_id = CASE
    WHEN retest_id IS NOT NULL THEN (
      SELECT r.by_party_id FROM retest r WHERE r.agreement_id = hold.agreement_id AND r.id = hold.retest_id)
    WHEN carried_from IS NOT NULL THEN carried_hold_author(agreement_id, document_id, carried_from)
    ELSE current_party() END);
ALTER TABLE "hold" ADD CONSTRAINT hold_carried_waits_for_none CHECK (
  carried_from IS NULL OR (correction_id IS NULL AND retest_id IS NULL AND load_id IS NULL));
CREATE UNIQUE INDEX hold_carried_from_key ON "hold" (carried_from) WHERE carried_from IS NOT NULL;

-- A sealed season's questions wait for the two parties: its journal takes no decision.
CREATE OR REPLACE FUNCTION open_retests() RETURNS TABLE (agreement_id uuid, party_id uuid, person_id uuid)
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT DISTINCT ON (r.agreement_id) r.agreement_id, r.by_party_id, r.recorded_by FROM retest r
  WHERE NOT EXISTS (SELECT FROM retest_ending e WHERE e.agreement_id = r.agreement_id AND e.retest_id = r.id)
    AND NOT EXISTS (SELECT FROM season_seal z WHERE z.agreement_id = r.agreement_id)
  ORDER BY r.agreement_id, r.recorded_at, r.id
$$;

-- Whether a season is sealed, also for who sees no seal: a laboratory is told why its result is not taken.
CREATE FUNCTION season_is_sealed(wanted uuid) RETURNS boolean
LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (SELECT FROM season_seal WHERE agreement_id = wanted)
$$;
REVOKE ALL ON FUNCTION season_is_sealed(uuid) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION season_is_sealed(uuid) TO huskledger_app;
