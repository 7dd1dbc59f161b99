-- CreateSchema
CREATE SCHEMA IF NOT EXISTS "public";

-- CreateEnum
CREATE TYPE "role" AS ENUM ('owner', 'bookkeeper', 'scale-operator', 'viewer');

-- CreateTable
CREATE TABLE "party" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "party_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person" (
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "password_hash" TEXT,
    "created_at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "member" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "role" "role" NOT NULL,
    "since" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "ended_at" TIMESTAMPTZ(6),

    CONSTRAINT "member_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "invitation" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "role" "role" NOT NULL,
    "token_hash" CHAR(64) NOT NULL,
    "created_by" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(6) NOT NULL,
    "used_at" TIMESTAMPTZ(6),
    "used_by" UUID,

    CONSTRAINT "invitation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "expires_at" TIMESTAMPTZ(6) NOT NULL,
    "revoked_at" TIMESTAMPTZ(6),
    "address" TEXT NOT NULL,
    "agent" TEXT NOT NULL,

    CONSTRAINT "session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "sign_in_try" (
    "id" UUID NOT NULL,
    "email" TEXT NOT NULL,
    "address" TEXT NOT NULL,
    "succeeded" BOOLEAN NOT NULL,
    "at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "sign_in_try_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "agreement" (
    "id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "buyer_id" UUID NOT NULL,
    "number" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "agreement_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "agreement_version" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "document" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "agreement_version_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "series" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "series_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "quote" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "series_id" UUID NOT NULL,
    "quoted_on" DATE NOT NULL,
    "price" DECIMAL NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "quote_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "load" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "ticket" TEXT NOT NULL,
    "delivered_at" TIMESTAMPTZ(6) NOT NULL,
    "delivered_on" DATE NOT NULL,
    "gross" DECIMAL NOT NULL,
    "tare" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "distance" DECIMAL,
    "distance_unit" TEXT,
    "truck" TEXT,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "load_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "sample" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "sample_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "sample_load" (
    "agreement_id" UUID NOT NULL,
    "load_id" UUID NOT NULL,
    "sample_id" UUID NOT NULL,

    CONSTRAINT "sample_load_pkey" PRIMARY KEY ("agreement_id","load_id")
);

-- CreateTable
CREATE TABLE "result" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "sample_id" UUID NOT NULL,
    "laboratory" TEXT,
    "method" TEXT,
    "reported_on" DATE,
    "basis" TEXT NOT NULL,
    "dry_matter" DECIMAL NOT NULL,
    "starch" DECIMAL,
    "ndf" DECIMAL,
    "adf" DECIMAL,
    "crude_protein" DECIMAL,
    "crude_fat" DECIMAL,
    "ash" DECIMAL,
    "ph" DECIMAL,
    "ammonia_nitrogen" DECIMAL,
    "particle_size" DECIMAL,
    "aflatoxin" DECIMAL,
    "vomitoxin" DECIMAL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "result_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "election" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "load_id" UUID NOT NULL,
    "series_id" UUID NOT NULL,
    "elected_on" DATE NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "election_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "choice" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "load_id" UUID NOT NULL,
    "choice" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "choice_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "settlement" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "load_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "supersedes" INTEGER,
    "agreement_version_id" UUID NOT NULL,
    "result_id" UUID,
    "status" TEXT NOT NULL,
    "currency" CHAR(3) NOT NULL,
    "total" DECIMAL NOT NULL,
    "settled_at" TIMESTAMPTZ(6) NOT NULL,
    "settled_by" UUID NOT NULL,

    CONSTRAINT "settlement_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "settlement_line" (
    "settlement_id" UUID NOT NULL,
    "place" INTEGER NOT NULL,
    "agreement_id" UUID NOT NULL,
    "label" TEXT NOT NULL,
    "quantity" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,
    "rate" DECIMAL NOT NULL,
    "amount" DECIMAL NOT NULL,
    "how" TEXT NOT NULL,

    CONSTRAINT "settlement_line_pkey" PRIMARY KEY ("agreement_id","settlement_id","place")
);

-- CreateTable
CREATE TABLE "settlement_price" (
    "settlement_id" UUID NOT NULL,
    "reference" TEXT NOT NULL,
    "agreement_id" UUID NOT NULL,
    "price" DECIMAL NOT NULL,
    "quote" DECIMAL NOT NULL,

    CONSTRAINT "settlement_price_pkey" PRIMARY KEY ("agreement_id","settlement_id","reference")
);

-- CreateTable
CREATE TABLE "settlement_quote" (
    "settlement_id" UUID NOT NULL,
    "quote_id" UUID NOT NULL,
    "agreement_id" UUID NOT NULL,

    CONSTRAINT "settlement_quote_pkey" PRIMARY KEY ("agreement_id","settlement_id","quote_id")
);

-- CreateTable
CREATE TABLE "journal_entry" (
    "agreement_id" UUID NOT NULL,
    "sequence" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "document" TEXT NOT NULL,
    "previous" CHAR(64) NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "transaction_id" BIGINT NOT NULL DEFAULT (pg_current_xact_id())::text::bigint,
    "posted_at" TIMESTAMPTZ(6) NOT NULL,
    "posted_by" UUID NOT NULL,

    CONSTRAINT "journal_entry_pkey" PRIMARY KEY ("agreement_id","sequence")
);

-- CreateTable
CREATE TABLE "posting" (
    "agreement_id" UUID NOT NULL,
    "sequence" INTEGER NOT NULL,
    "place" INTEGER NOT NULL,
    "account" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "amount" DECIMAL NOT NULL,

    CONSTRAINT "posting_pkey" PRIMARY KEY ("agreement_id","sequence","place")
);

-- CreateTable
CREATE TABLE "unbalanced_entry" (
    "id" BIGSERIAL NOT NULL,
    "agreement_id" UUID NOT NULL,
    "sequence" INTEGER NOT NULL,

    CONSTRAINT "unbalanced_entry_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "account_balance" (
    "agreement_id" UUID NOT NULL,
    "account" TEXT NOT NULL,
    "unit" TEXT NOT NULL,
    "balance" DECIMAL NOT NULL,
    "postings" BIGINT NOT NULL,

    CONSTRAINT "account_balance_pkey" PRIMARY KEY ("agreement_id","account","unit")
);

-- CreateTable
CREATE TABLE "request" (
    "party_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "verb" TEXT NOT NULL,
    "input_hash" CHAR(64) NOT NULL,
    "answer" TEXT NOT NULL,
    "at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "request_pkey" PRIMARY KEY ("party_id","key")
);

-- CreateTable
CREATE TABLE "audit" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "verb" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "at" TIMESTAMPTZ(6) NOT NULL DEFAULT CURRENT_TIMESTAMP,

    CONSTRAINT "audit_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "person_email_key" ON "person"("email");

-- CreateIndex
CREATE INDEX "member_person_id_idx" ON "member"("person_id");

-- CreateIndex
CREATE UNIQUE INDEX "member_party_id_person_id_key" ON "member"("party_id", "person_id");

-- CreateIndex
CREATE UNIQUE INDEX "invitation_token_hash_key" ON "invitation"("token_hash");

-- CreateIndex
CREATE INDEX "invitation_party_id_idx" ON "invitation"("party_id");

-- CreateIndex
CREATE INDEX "session_person_id_idx" ON "session"("person_id");

-- CreateIndex
CREATE INDEX "sign_in_try_email_at_idx" ON "sign_in_try"("email", "at");

-- CreateIndex
CREATE INDEX "sign_in_try_address_at_idx" ON "sign_in_try"("address", "at");

-- CreateIndex
CREATE INDEX "agreement_buyer_id_idx" ON "agreement"("buyer_id");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_seller_id_buyer_id_number_key" ON "agreement"("seller_id", "buyer_id", "number");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_version_agreement_id_version_key" ON "agreement_version"("agreement_id", "version");

-- CreateIndex
CREATE UNIQUE INDEX "series_agreement_id_name_key" ON "series"("agreement_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "quote_agreement_id_series_id_quoted_on_key" ON "quote"("agreement_id", "series_id", "quoted_on");

-- CreateIndex
CREATE INDEX "load_agreement_id_delivered_at_id_idx" ON "load"("agreement_id", "delivered_at" DESC, "id");

-- CreateIndex
CREATE UNIQUE INDEX "load_agreement_id_ticket_key" ON "load"("agreement_id", "ticket");

-- CreateIndex
CREATE UNIQUE INDEX "sample_agreement_id_name_key" ON "sample"("agreement_id", "name");

-- CreateIndex
CREATE INDEX "sample_load_agreement_id_sample_id_idx" ON "sample_load"("agreement_id", "sample_id");

-- CreateIndex
CREATE UNIQUE INDEX "result_agreement_id_sample_id_key" ON "result"("agreement_id", "sample_id");

-- CreateIndex
CREATE UNIQUE INDEX "election_agreement_id_load_id_series_id_key" ON "election"("agreement_id", "load_id", "series_id");

-- CreateIndex
CREATE INDEX "choice_agreement_id_load_id_idx" ON "choice"("agreement_id", "load_id");

-- CreateIndex
CREATE UNIQUE INDEX "settlement_agreement_id_load_id_version_key" ON "settlement"("agreement_id", "load_id", "version");

-- CreateIndex
CREATE INDEX "journal_entry_agreement_id_subject_id_idx" ON "journal_entry"("agreement_id", "subject_id");

-- CreateIndex
CREATE INDEX "audit_party_id_at_idx" ON "audit"("party_id", "at");

-- AddForeignKey
ALTER TABLE "member" ADD CONSTRAINT "member_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "member" ADD CONSTRAINT "member_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "invitation" ADD CONSTRAINT "invitation_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "session" ADD CONSTRAINT "session_person_id_fkey" FOREIGN KEY ("person_id") REFERENCES "person"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_seller_id_fkey" FOREIGN KEY ("seller_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement" ADD CONSTRAINT "agreement_buyer_id_fkey" FOREIGN KEY ("buyer_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement_version" ADD CONSTRAINT "agreement_version_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "series" ADD CONSTRAINT "series_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "quote" ADD CONSTRAINT "quote_agreement_id_series_id_fkey" FOREIGN KEY ("agreement_id", "series_id") REFERENCES "series"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "load" ADD CONSTRAINT "load_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sample" ADD CONSTRAINT "sample_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sample_load" ADD CONSTRAINT "sample_load_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "sample_load" ADD CONSTRAINT "sample_load_agreement_id_sample_id_fkey" FOREIGN KEY ("agreement_id", "sample_id") REFERENCES "sample"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "result" ADD CONSTRAINT "result_agreement_id_sample_id_fkey" FOREIGN KEY ("agreement_id", "sample_id") REFERENCES "sample"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "election" ADD CONSTRAINT "election_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "election" ADD CONSTRAINT "election_agreement_id_series_id_fkey" FOREIGN KEY ("agreement_id", "series_id") REFERENCES "series"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "choice" ADD CONSTRAINT "choice_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_agreement_id_load_id_fkey" FOREIGN KEY ("agreement_id", "load_id") REFERENCES "load"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_agreement_id_agreement_version_id_fkey" FOREIGN KEY ("agreement_id", "agreement_version_id") REFERENCES "agreement_version"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_agreement_id_result_id_fkey" FOREIGN KEY ("agreement_id", "result_id") REFERENCES "result"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement" ADD CONSTRAINT "settlement_supersedes_fkey" FOREIGN KEY ("agreement_id", "load_id", "supersedes") REFERENCES "settlement"("agreement_id", "load_id", "version") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_line" ADD CONSTRAINT "settlement_line_agreement_id_settlement_id_fkey" FOREIGN KEY ("agreement_id", "settlement_id") REFERENCES "settlement"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_price" ADD CONSTRAINT "settlement_price_agreement_id_settlement_id_fkey" FOREIGN KEY ("agreement_id", "settlement_id") REFERENCES "settlement"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_quote" ADD CONSTRAINT "settlement_quote_agreement_id_settlement_id_fkey" FOREIGN KEY ("agreement_id", "settlement_id") REFERENCES "settlement"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "settlement_quote" ADD CONSTRAINT "settlement_quote_agreement_id_quote_id_fkey" FOREIGN KEY ("agreement_id", "quote_id") REFERENCES "quote"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "journal_entry" ADD CONSTRAINT "journal_entry_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "posting" ADD CONSTRAINT "posting_agreement_id_sequence_fkey" FOREIGN KEY ("agreement_id", "sequence") REFERENCES "journal_entry"("agreement_id", "sequence") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "account_balance" ADD CONSTRAINT "account_balance_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "request" ADD CONSTRAINT "request_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "audit" ADD CONSTRAINT "audit_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- ------------------------------------------------------------------ what Prisma's schema cannot say

-- Two roles, neither of which owns a table, logs in or passes by row-level security. The program takes one of them on
-- for each transaction: huskledger_app for a party's data, huskledger_door for signing in and joining a party.
DO $$
DECLARE role_name text;
BEGIN
  FOREACH role_name IN ARRAY ARRAY['huskledger_app', 'huskledger_door'] LOOP
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = role_name) THEN
      BEGIN
        EXECUTE format('CREATE ROLE %I NOLOGIN NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE NOINHERIT', role_name);
      EXCEPTION WHEN duplicate_object OR unique_violation THEN
        NULL; -- Another database of this server made it in the meantime.
      END;
    END IF;
    IF NOT pg_has_role(current_user, role_name, 'MEMBER') THEN
      EXECUTE format('GRANT %I TO CURRENT_USER', role_name);
    END IF;
  END LOOP;
END $$;

REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
REVOKE CREATE ON SCHEMA public FROM PUBLIC;
GRANT USAGE ON SCHEMA public TO huskledger_app, huskledger_door;

-- The party that a transaction acts for; null where none was named, and then no row of any party is seen.
CREATE FUNCTION current_party() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE AS
$$ SELECT nullif(current_setting('app.party', true), '')::uuid $$;

-- ---- figures that cannot be

ALTER TABLE "load"
  ADD CONSTRAINT load_weights CHECK (tare >= 0 AND gross > tare),
  ADD CONSTRAINT load_unit CHECK (unit IN ('lb', 'kg', 'short-ton', 'tonne')),
  ADD CONSTRAINT load_distance CHECK (
    (distance IS NULL) = (distance_unit IS NULL) AND (distance IS NULL OR (distance >= 0 AND distance_unit IN ('mile', 'km')))
  );
ALTER TABLE "quote" ADD CONSTRAINT quote_price CHECK (price >= 0);
ALTER TABLE "result"
  ADD CONSTRAINT result_basis CHECK (basis IN ('as-fed', 'dry-matter')),
  ADD CONSTRAINT result_dry_matter CHECK (dry_matter > 0 AND dry_matter <= 100);
ALTER TABLE "choice" ADD CONSTRAINT choice_word CHECK (choice IN ('accept', 'refuse'));
ALTER TABLE "agreement" ADD CONSTRAINT agreement_two_parties CHECK (seller_id <> buyer_id);
ALTER TABLE "agreement_version"
  ADD CONSTRAINT agreement_version_fingerprint
    CHECK (fingerprint = encode(sha256(convert_to(document, 'UTF8')), 'hex')),
  ADD CONSTRAINT agreement_version_counts CHECK (version >= 1);
ALTER TABLE "settlement"
  ADD CONSTRAINT settlement_status CHECK (status IN ('settled', 'refused')),
  -- Versions follow one another without a gap, so with their uniqueness each load has one that nothing supersedes.
  ADD CONSTRAINT settlement_follows CHECK (
    (version = 1 AND supersedes IS NULL) OR (version > 1 AND supersedes IS NOT NULL AND supersedes = version - 1)
  );

-- ---- the journal's chain

ALTER TABLE "journal_entry"
  ADD CONSTRAINT journal_entry_fingerprint CHECK (
    fingerprint = encode(sha256(convert_to(previous || E'\n' || document, 'UTF8')), 'hex')
  ),
  ADD CONSTRAINT journal_entry_counts CHECK (sequence >= 1);

CREATE FUNCTION check_chain() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  -- Entries of one statement are held against one another, and the first of each agreement against the table: a join
  -- of every entry with the table would be planned by its length, which nobody has counted yet.
  IF EXISTS (
    SELECT FROM (
      SELECT agreement_id, sequence, previous,
        lag(sequence) OVER chain AS sequence_before, lag(fingerprint) OVER chain AS fingerprint_before
      FROM new_entries WINDOW chain AS (PARTITION BY agreement_id ORDER BY sequence)
    ) entry
    WHERE previous IS DISTINCT FROM CASE
      WHEN sequence = 1 THEN repeat('0', 64)
      WHEN sequence_before = sequence - 1 THEN fingerprint_before
      ELSE (
        SELECT fingerprint FROM journal_entry before
        WHERE before.agreement_id = entry.agreement_id AND before.sequence = entry.sequence - 1)
    END
  ) THEN
    RAISE EXCEPTION 'A journal entry does not follow the one before it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NULL;
END $$;
CREATE TRIGGER journal_entry_chain AFTER INSERT ON "journal_entry"
  REFERENCING NEW TABLE AS new_entries FOR EACH STATEMENT EXECUTE FUNCTION check_chain();

-- ---- the journal's balance

-- Postings join an entry only in the transaction that writes it; sums of accounts are kept as they come. An entry that
-- a statement leaves out of balance is noted, and must have come into balance when the transaction ends.
CREATE FUNCTION take_postings() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT FROM (SELECT DISTINCT agreement_id, sequence FROM new_postings) posted
    JOIN journal_entry entry USING (agreement_id, sequence)
    WHERE entry.transaction_id <> pg_current_xact_id()::text::bigint
  ) THEN
    RAISE EXCEPTION 'A posting cannot join an entry that is posted already' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  INSERT INTO unbalanced_entry (agreement_id, sequence)
    SELECT DISTINCT agreement_id, sequence FROM (
      SELECT agreement_id, sequence FROM new_postings GROUP BY agreement_id, sequence, unit HAVING sum(amount) <> 0
    ) suspect;
  INSERT INTO account_balance AS kept (agreement_id, account, unit, balance, postings)
    SELECT agreement_id, account, unit, sum(amount), count(*) FROM new_postings
    GROUP BY agreement_id, account, unit ORDER BY agreement_id, account, unit
    ON CONFLICT (agreement_id, account, unit)
    DO UPDATE SET balance = kept.balance + excluded.balance, postings = kept.postings + excluded.postings;
  RETURN NULL;
END $$;
CREATE TRIGGER posting_taken AFTER INSERT ON "posting"
  REFERENCING NEW TABLE AS new_postings FOR EACH STATEMENT EXECUTE FUNCTION take_postings();

-- Deferred to the end of the transaction. Whoever calls for it early is noted anew by the next statement that leaves the
-- entry out of balance, so no order of statements gets by.
CREATE FUNCTION check_entry_balance() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT FROM posting
    WHERE agreement_id = NEW.agreement_id AND sequence = NEW.sequence
    GROUP BY unit HAVING sum(amount) <> 0
  ) THEN
    RAISE EXCEPTION 'Journal entry % of agreement % does not balance', NEW.sequence, NEW.agreement_id
      USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  DELETE FROM unbalanced_entry WHERE id = NEW.id;
  RETURN NULL;
END $$;
CREATE CONSTRAINT TRIGGER unbalanced_entry_checked AFTER INSERT ON "unbalanced_entry"
  DEFERRABLE INITIALLY DEFERRED FOR EACH ROW EXECUTE FUNCTION check_entry_balance();

-- ---- nothing recorded is changed

CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  RAISE EXCEPTION '% is written once: a correction is a new row', TG_TABLE_NAME USING ERRCODE = 'insufficient_privilege';
END $$;

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'agreement', 'agreement_version', 'series', 'quote', 'load', 'sample', 'sample_load', 'result', 'election', 'choice',
    'settlement', 'settlement_line', 'settlement_price', 'settlement_quote', 'journal_entry', 'posting', 'request', 'audit'
  ] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO huskledger_app', table_name);
  END LOOP;
END $$;
CREATE TRIGGER account_balance_not_emptied BEFORE TRUNCATE OR DELETE ON "account_balance"
  FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

GRANT SELECT ON "account_balance", "party", "member" TO huskledger_app;
GRANT SELECT (id, name) ON "person" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE (used_at, used_by) ON "invitation" TO huskledger_door;
GRANT SELECT, INSERT ON "party" TO huskledger_door;
GRANT SELECT, INSERT, UPDATE (role, ended_at) ON "member" TO huskledger_door;
GRANT SELECT, INSERT, UPDATE (name, password_hash) ON "person" TO huskledger_door;
GRANT SELECT, INSERT, UPDATE (revoked_at) ON "session" TO huskledger_door;
GRANT SELECT, INSERT, DELETE ON "sign_in_try" TO huskledger_door;

-- ---- nobody sees another's rows

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'party', 'person', 'member', 'invitation', 'session', 'sign_in_try', 'unbalanced_entry', 'agreement',
    'agreement_version', 'series', 'quote', 'load', 'sample', 'sample_load', 'result', 'election', 'choice', 'settlement', 'settlement_line',
    'settlement_price', 'settlement_quote', 'journal_entry', 'posting', 'account_balance', 'request', 'audit'
  ] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
  END LOOP;
  -- Rows of an agreement: its two parties.
  FOREACH table_name IN ARRAY ARRAY[
    'agreement_version', 'series', 'quote', 'load', 'sample', 'sample_load', 'result', 'election', 'choice',
    'settlement', 'settlement_line', 'settlement_price', 'settlement_quote', 'journal_entry', 'posting', 'account_balance'
  ] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app USING (agreement_id IN (SELECT id FROM agreement)) WITH CHECK (agreement_id IN (SELECT id FROM agreement))',
      table_name);
  END LOOP;
  -- Rows of one party.
  FOREACH table_name IN ARRAY ARRAY['member', 'request', 'audit'] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_party ON %I TO huskledger_app USING (party_id = current_party()) WITH CHECK (party_id = current_party())',
      table_name);
  END LOOP;
  -- The door sees who may come in, and nothing of what is inside.
  FOREACH table_name IN ARRAY ARRAY['party', 'person', 'member', 'invitation', 'session', 'sign_in_try'] LOOP
    EXECUTE format('CREATE POLICY at_the_door ON %I TO huskledger_door USING (true) WITH CHECK (true)', table_name);
  END LOOP;
END $$;
CREATE POLICY of_its_parties ON "agreement" TO huskledger_app
  USING (current_party() IN (seller_id, buyer_id)) WITH CHECK (current_party() IN (seller_id, buyer_id));
CREATE POLICY itself_and_its_partners ON "party" FOR SELECT TO huskledger_app
  USING (id = current_party() OR id IN (SELECT seller_id FROM agreement UNION ALL SELECT buyer_id FROM agreement));
CREATE POLICY of_its_own_people ON "person" FOR SELECT TO huskledger_app
  USING (id IN (SELECT person_id FROM member));
