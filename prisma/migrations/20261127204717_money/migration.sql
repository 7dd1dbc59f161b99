-- CreateTable
CREATE TABLE "money_document" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "serial" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "issued_on" DATE NOT NULL,
    "due_on" DATE NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "payable" DECIMAL NOT NULL,
    "corrects_id" UUID,
    "document" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "money_document_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "document_load" (
    "agreement_id" UUID NOT NULL,
    "document_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "load_id" UUID NOT NULL,
    "settlement_id" UUID,
    "goods" DECIMAL NOT NULL,
    "deductions" DECIMAL NOT NULL,
    "advance" DECIMAL NOT NULL,

    CONSTRAINT "document_load_pkey" PRIMARY KEY ("agreement_id","document_id","place")
);

-- CreateTable
CREATE TABLE "payment" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "payer_id" UUID NOT NULL,
    "by_party_id" UUID NOT NULL,
    "amount" DECIMAL NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "paid_on" DATE NOT NULL,
    "method" TEXT NOT NULL,
    "reference" TEXT,
    "spread" TEXT NOT NULL,
    "made_out_to" TEXT NOT NULL,
    "past_lien" TEXT,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "payment_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "payment_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "payment_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "payment_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "payment_reversal" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "payment_id" UUID NOT NULL,
    "reversed_on" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "payment_reversal_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "allocation" (
    "agreement_id" UUID NOT NULL,
    "source_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "document_id" UUID NOT NULL,
    "amount" DECIMAL NOT NULL,
    "discount" DECIMAL NOT NULL,

    CONSTRAINT "allocation_pkey" PRIMARY KEY ("agreement_id","source_id","place")
);

-- CreateTable
CREATE TABLE "hold" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "document_id" UUID NOT NULL,
    "load_id" UUID,
    "amount" DECIMAL NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "correction_id" UUID,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "hold_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "hold_end" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "hold_id" UUID NOT NULL,
    "ending" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "hold_end_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "set_off" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "amount" DECIMAL NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "spread" TEXT NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "set_off_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "set_off_answer" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "set_off_id" UUID NOT NULL,
    "answer" TEXT NOT NULL,
    "reason" TEXT,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "set_off_answer_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "lien_notice" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "lender" TEXT NOT NULL,
    "debtor" TEXT NOT NULL,
    "crop_year" INTEGER NOT NULL,
    "county" TEXT NOT NULL,
    "conditions" TEXT NOT NULL,
    "received_on" DATE NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "lien_notice_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "lien_end" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "lien_id" UUID NOT NULL,
    "ended_on" DATE NOT NULL,
    "reason" TEXT NOT NULL,
    "by_party_id" UUID NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "lien_end_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "payee_account" (
    "party_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "holder" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "number" TEXT NOT NULL,
    "bank_kind" TEXT,
    "bank" TEXT,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "payee_account_pkey" PRIMARY KEY ("party_id","version")
);

-- CreateIndex
CREATE UNIQUE INDEX "money_document_seller_id_serial_key" ON "money_document"("seller_id", "serial");

-- CreateIndex
CREATE INDEX "document_load_agreement_id_load_id_idx" ON "document_load"("agreement_id", "load_id");

-- CreateIndex
CREATE UNIQUE INDEX "document_load_agreement_id_settlement_id_key" ON "document_load"("agreement_id", "settlement_id");

-- CreateIndex
CREATE UNIQUE INDEX "payment_answer_agreement_id_payment_id_key" ON "payment_answer"("agreement_id", "payment_id");

-- CreateIndex
CREATE UNIQUE INDEX "payment_reversal_agreement_id_payment_id_key" ON "payment_reversal"("agreement_id", "payment_id");

-- CreateIndex
CREATE INDEX "allocation_agreement_id_document_id_idx" ON "allocation"("agreement_id", "document_id");

-- CreateIndex
CREATE UNIQUE INDEX "allocation_agreement_id_source_id_document_id_key" ON "allocation"("agreement_id", "source_id", "document_id");

-- CreateIndex
CREATE INDEX "hold_agreement_id_document_id_idx" ON "hold"("agreement_id", "document_id");

-- CreateIndex
CREATE UNIQUE INDEX "hold_end_agreement_id_hold_id_key" ON "hold_end"("agreement_id", "hold_id");

-- CreateIndex
CREATE UNIQUE INDEX "set_off_answer_agreement_id_set_off_id_key" ON "set_off_answer"("agreement_id", "set_off_id");

-- CreateIndex
CREATE UNIQUE INDEX "lien_end_agreement_id_lien_id_key" ON "lien_end"("agreement_id", "lien_id");

-- AddForeignKey
ALTER TABLE "money_document" ADD CONSTRAINT "money_document_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "money_document" ADD CONSTRAINT "money_document_corrects_fkey" FOREIGN KEY ("agreement_id", "corrects_id") REFERENCES "money_document"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "document_load" ADD CONSTRAINT "document_load_agreement_id_document_id_fkey" FOREIGN KEY ("agreement_id", "document_id") REFERENCES "money_document"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "document_load" ADD CONSTRAINT "document_load_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "document_load" ADD CONSTRAINT "document_load_agreement_id_settlement_id_fkey" FOREIGN KEY ("agreement_id", "settlement_id") REFERENCES "settlement"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payment" ADD CONSTRAINT "payment_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payment_answer" ADD CONSTRAINT "payment_answer_agreement_id_payment_id_fkey" FOREIGN KEY ("agreement_id", "payment_id") REFERENCES "payment"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payment_reversal" ADD CONSTRAINT "payment_reversal_agreement_id_payment_id_fkey" FOREIGN KEY ("agreement_id", "payment_id") REFERENCES "payment"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "allocation" ADD CONSTRAINT "allocation_agreement_id_document_id_fkey" FOREIGN KEY ("agreement_id", "document_id") REFERENCES "money_document"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_agreement_id_document_id_fkey" FOREIGN KEY ("agreement_id", "document_id") REFERENCES "money_document"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold" ADD CONSTRAINT "hold_agreement_id_correction_id_fkey" FOREIGN KEY ("agreement_id", "correction_id") REFERENCES "correction"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "hold_end" ADD CONSTRAINT "hold_end_agreement_id_hold_id_fkey" FOREIGN KEY ("agreement_id", "hold_id") REFERENCES "hold"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "set_off" ADD CONSTRAINT "set_off_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "set_off_answer" ADD CONSTRAINT "set_off_answer_agreement_id_set_off_id_fkey" FOREIGN KEY ("agreement_id", "set_off_id") REFERENCES "set_off"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lien_notice" ADD CONSTRAINT "lien_notice_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lien_end" ADD CONSTRAINT "lien_end_agreement_id_lien_id_fkey" FOREIGN KEY ("agreement_id", "lien_id") REFERENCES "lien_notice"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "payee_account" ADD CONSTRAINT "payee_account_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
-- ------------------------------------------------------------------ what Prisma's schema cannot say

-- ---- figures and words that cannot be

ALTER TABLE "money_document"
  ADD CONSTRAINT money_document_kind CHECK (kind IN ('invoice', 'advance', 'credit-note', 'debit-note', 'interest', 'fee')),
  ADD CONSTRAINT money_document_counts CHECK (serial >= 1),
  ADD CONSTRAINT money_document_due CHECK (due_on >= issued_on),
  ADD CONSTRAINT money_document_sign CHECK (kind = 'invoice' OR (kind = 'credit-note') = (payable < 0)),
  ADD CONSTRAINT money_document_fingerprint CHECK (fingerprint = encode(sha256(convert_to(document, 'UTF8')), 'hex'));
ALTER TABLE "payment"
  ADD CONSTRAINT payment_amount CHECK (amount > 0),
  ADD CONSTRAINT payment_words CHECK (method IN ('check', 'transfer', 'cash', 'other') AND made_out_to IN ('seller', 'jointly'));
ALTER TABLE "payment_answer"
  ADD CONSTRAINT payment_answer_word CHECK (answer IN ('confirmed', 'contested', 'withdrawn')),
  ADD CONSTRAINT payment_answer_reason CHECK (answer <> 'contested' OR reason IS NOT NULL);
ALTER TABLE "allocation" ADD CONSTRAINT allocation_amount CHECK (amount >= 0 AND discount >= 0 AND amount + discount > 0);
ALTER TABLE "hold" ADD CONSTRAINT hold_amount CHECK (amount > 0);
ALTER TABLE "hold_end" ADD CONSTRAINT hold_end_word CHECK (ending IN ('released', 'decided'));
ALTER TABLE "set_off" ADD CONSTRAINT set_off_amount CHECK (amount > 0);
ALTER TABLE "set_off_answer" ADD CONSTRAINT set_off_answer_word CHECK (answer IN ('confirmed', 'refused', 'withdrawn'));
ALTER TABLE "lien_notice" ADD CONSTRAINT lien_notice_year CHECK (crop_year BETWEEN 1970 AND 2199);
ALTER TABLE "payee_account" ADD CONSTRAINT payee_account_words CHECK (
  version >= 1 AND kind IN ('iban', 'other') AND (bank_kind IS NULL) = (bank IS NULL) AND (bank_kind IS NULL OR bank_kind IN ('bic', 'aba'))
);

-- ---- a seller's documents leave no gap

-- Whoever is to number a document waits here for whoever is numbering one of the same seller.
CREATE FUNCTION next_document_serial(wanted uuid) RETURNS int LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM agreement WHERE seller_id = wanted AND current_party() IN (seller_id, buyer_id)) THEN
    RAISE EXCEPTION 'Documents are numbered by the parties of an agreement' USING ERRCODE = 'insufficient_privilege';
  END IF;
  PERFORM pg_advisory_xact_lock(hashtextextended('document number ' || wanted::text, 0));
  RETURN (SELECT coalesce(max(serial), 0) + 1 FROM money_document WHERE seller_id = wanted);
END $$;

CREATE FUNCTION check_document() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM agreement WHERE id = NEW.agreement_id AND seller_id = NEW.seller_id) THEN
    RAISE EXCEPTION 'A document is numbered among those of its own seller' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  PERFORM pg_advisory_xact_lock(hashtextextended('document number ' || NEW.seller_id::text, 0));
  IF NEW.serial <> (SELECT coalesce(max(serial), 0) + 1 FROM money_document WHERE seller_id = NEW.seller_id) THEN
    RAISE EXCEPTION 'Document % does not follow the seller''s last', NEW.serial USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER money_document_checked BEFORE INSERT ON "money_document" FOR EACH ROW EXECUTE FUNCTION check_document();

-- ---- nothing is paid above its amount

-- What is paid beyond a document is money on account, an entry of its own.
CREATE FUNCTION check_allocations() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT FROM (SELECT DISTINCT agreement_id, document_id FROM new_allocations) given
    JOIN money_document d ON d.agreement_id = given.agreement_id AND d.id = given.document_id
    WHERE d.payable < (
      SELECT sum(a.amount + a.discount) FROM allocation a
      WHERE a.agreement_id = d.agreement_id AND a.document_id = d.id AND NOT EXISTS (
        SELECT FROM payment_answer p JOIN payment_reversal r USING (agreement_id, payment_id)
        WHERE p.agreement_id = a.agreement_id AND p.id = a.source_id))
  ) THEN
    RAISE EXCEPTION 'A document cannot be paid above its amount' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF EXISTS (
    SELECT FROM new_allocations given
    WHERE NOT EXISTS (SELECT FROM payment_answer s WHERE s.agreement_id = given.agreement_id AND s.id = given.source_id)
      AND NOT EXISTS (SELECT FROM set_off_answer s WHERE s.agreement_id = given.agreement_id AND s.id = given.source_id)
      AND NOT EXISTS (SELECT FROM money_document s WHERE s.agreement_id = given.agreement_id AND s.id = given.source_id)
  ) THEN
    RAISE EXCEPTION 'Something settles a document that is no payment, set-off or note' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER allocation_checked AFTER INSERT ON "allocation"
  REFERENCING NEW TABLE AS new_allocations FOR EACH STATEMENT EXECUTE FUNCTION check_allocations();

-- ---- who may say what of money

-- One of the two pays, and one of the two says so.
CREATE FUNCTION check_payment() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (
    SELECT FROM agreement WHERE id = NEW.agreement_id
      AND NEW.payer_id IN (seller_id, buyer_id) AND NEW.by_party_id IN (seller_id, buyer_id)
  ) THEN
    RAISE EXCEPTION 'A payment is between the parties of its agreement' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER payment_checked BEFORE INSERT ON "payment" FOR EACH ROW EXECUTE FUNCTION check_payment();

-- The payee confirms or contests; whoever recorded a payment withdraws it; the payee says that it was given back.
CREATE FUNCTION check_payment_word() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  paid payment;
BEGIN
  SELECT * INTO paid FROM payment WHERE agreement_id = NEW.agreement_id AND id = NEW.payment_id;
  -- A reversal has no word of its own, so the new row is read as JSON.
  IF to_jsonb(NEW)->>'answer' = 'withdrawn' THEN
    IF NEW.by_party_id <> paid.by_party_id THEN
      RAISE EXCEPTION 'Whoever recorded a payment withdraws it' USING ERRCODE = 'integrity_constraint_violation';
    END IF;
  ELSIF NEW.by_party_id = paid.payer_id THEN
    RAISE EXCEPTION 'Whoever paid does not answer for the payee' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF TG_TABLE_NAME = 'payment_reversal' AND NOT EXISTS (
    SELECT FROM payment_answer WHERE agreement_id = NEW.agreement_id AND payment_id = NEW.payment_id AND answer = 'confirmed'
  ) THEN
    RAISE EXCEPTION 'Only a confirmed payment is given back' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER payment_answer_checked BEFORE INSERT ON "payment_answer" FOR EACH ROW EXECUTE FUNCTION check_payment_word();
CREATE TRIGGER payment_reversal_checked BEFORE INSERT ON "payment_reversal" FOR EACH ROW EXECUTE FUNCTION check_payment_word();

CREATE FUNCTION check_set_off_answer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  author uuid;
BEGIN
  SELECT by_party_id INTO author FROM set_off WHERE agreement_id = NEW.agreement_id AND id = NEW.set_off_id;
  IF (NEW.answer = 'withdrawn') <> (NEW.by_party_id = author) THEN
    RAISE EXCEPTION 'The other side confirms or refuses a set-off; whoever proposed it withdraws it'
      USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER set_off_answer_checked BEFORE INSERT ON "set_off_answer" FOR EACH ROW EXECUTE FUNCTION check_set_off_answer();

CREATE FUNCTION check_hold_end() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.ending = 'released' AND NOT EXISTS (
    SELECT FROM hold WHERE agreement_id = NEW.agreement_id AND id = NEW.hold_id AND by_party_id = NEW.by_party_id
  ) THEN
    RAISE EXCEPTION 'Whoever holds an amount back releases it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER hold_end_checked BEFORE INSERT ON "hold_end" FOR EACH ROW EXECUTE FUNCTION check_hold_end();

-- The buyer pays, and answers to a lender that was passed over: it alone says that a lien is over.
CREATE FUNCTION check_lien_end() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM agreement WHERE id = NEW.agreement_id AND buyer_id = NEW.by_party_id) THEN
    RAISE EXCEPTION 'The buyer records that a lien is over' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER lien_end_checked BEFORE INSERT ON "lien_end" FOR EACH ROW EXECUTE FUNCTION check_lien_end();

-- ---- nothing written is changed, nobody sees another's rows, and nobody speaks for another

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'money_document', 'document_load', 'payment', 'payment_answer', 'payment_reversal', 'allocation', 'hold', 'hold_end',
    'set_off', 'set_off_answer', 'lien_notice', 'lien_end', 'payee_account'
  ] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO huskledger_app', table_name);
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
  END LOOP;
  -- Money is between the two parties: an adviser on the agreement sees none of it.
  FOREACH table_name IN ARRAY ARRAY[
    'money_document', 'document_load', 'payment', 'payment_answer', 'payment_reversal', 'allocation', 'hold', 'hold_end',
    'set_off', 'set_off_answer', 'lien_notice', 'lien_end'
  ] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app
       USING (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))
       WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY[
    'payment', 'payment_answer', 'payment_reversal', 'hold', 'hold_end', 'set_off', 'set_off_answer', 'lien_notice', 'lien_end'
  ] LOOP
    EXECUTE format(
      'CREATE POLICY by_its_author ON %I AS RESTRICTIVE FOR INSERT TO huskledger_app WITH CHECK (by_party_id = current_party())',
      table_name);
  END LOOP;
END $$;
REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;

-- An adviser reads the journal of what it advises on, but for what the two pay each other.
CREATE POLICY money_is_between_two ON "journal_entry" AS RESTRICTIVE FOR SELECT TO huskledger_app USING (
  kind NOT IN (
    'document', 'payment', 'payment-answer', 'payment-reversal', 'hold', 'hold-end', 'set-off', 'set-off-answer',
    'lien-notice', 'lien-end'
  ) OR agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)));
DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY['posting', 'account_balance'] LOOP
    EXECUTE format(
      'CREATE POLICY money_is_between_two ON %I AS RESTRICTIVE FOR SELECT TO huskledger_app USING (
         account IN (''feed-delivered'', ''feed-waiting'', ''feed-settled'', ''feed-refused'')
         OR agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
END $$;

CREATE POLICY of_its_party ON "payee_account" TO huskledger_app
  USING (party_id = current_party()) WITH CHECK (party_id = current_party());
CREATE POLICY seen_by_partners ON "payee_account" FOR SELECT TO huskledger_app
  USING (party_id IN (
    SELECT seller_id FROM agreement WHERE buyer_id = current_party()
    UNION ALL SELECT buyer_id FROM agreement WHERE seller_id = current_party()));
