-- AlterTable
ALTER TABLE "member" ADD COLUMN     "mail" BOOLEAN NOT NULL DEFAULT true;

-- CreateTable
CREATE TABLE "signing" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "version_id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "serial" INTEGER,
    "offer_id" UUID NOT NULL,
    "offer_version" INTEGER NOT NULL,
    "lot_id" UUID,
    "effective_from" DATE,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "signing_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "agreement_closing" (
    "agreement_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "last_delivery_on" DATE NOT NULL,
    "offer_id" UUID NOT NULL,
    "offer_version" INTEGER NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "agreement_closing_pkey" PRIMARY KEY ("agreement_id","id")
);

-- CreateTable
CREATE TABLE "lot" (
    "id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "number" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "audience" TEXT NOT NULL,
    "open_until" TIMESTAMPTZ(6),
    "held_until" TIMESTAMPTZ(6),
    "created_at" TIMESTAMPTZ(6) NOT NULL,
    "created_by" UUID NOT NULL,

    CONSTRAINT "lot_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "lot_version" (
    "lot_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "document" TEXT NOT NULL,
    "is_shown" BOOLEAN NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "lot_version_pkey" PRIMARY KEY ("lot_id","version")
);

-- CreateTable
CREATE TABLE "lot_address" (
    "lot_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "address" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "lot_address_pkey" PRIMARY KEY ("lot_id","version")
);

-- CreateTable
CREATE TABLE "lot_guest" (
    "lot_id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "invited_at" TIMESTAMPTZ(6) NOT NULL,
    "invited_by" UUID NOT NULL,

    CONSTRAINT "lot_guest_pkey" PRIMARY KEY ("lot_id","party_id")
);

-- CreateTable
CREATE TABLE "lot_file" (
    "id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "bytes" BYTEA NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "lot_file_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "public_listing" (
    "lot_id" UUID NOT NULL,
    "document" TEXT NOT NULL,
    "open_until" TIMESTAMPTZ(6) NOT NULL,
    "posted_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "public_listing_pkey" PRIMARY KEY ("lot_id")
);

-- CreateTable
CREATE TABLE "party_place" (
    "party_id" UUID NOT NULL,
    "latitude" DECIMAL NOT NULL,
    "longitude" DECIMAL NOT NULL,

    CONSTRAINT "party_place_pkey" PRIMARY KEY ("party_id")
);

-- CreateTable
CREATE TABLE "lot_distance" (
    "party_id" UUID NOT NULL,
    "lot_id" UUID NOT NULL,
    "length" DECIMAL NOT NULL,
    "unit" TEXT NOT NULL,

    CONSTRAINT "lot_distance_pkey" PRIMARY KEY ("party_id","lot_id")
);

-- CreateTable
CREATE TABLE "offer" (
    "id" UUID NOT NULL,
    "seller_id" UUID NOT NULL,
    "buyer_id" UUID NOT NULL,
    "purpose" TEXT NOT NULL,
    "lot_id" UUID,
    "agreement_id" UUID,
    "created_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "offer_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "offer_version" (
    "offer_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "by_party_id" UUID NOT NULL,
    "document" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "message" TEXT,
    "valid_until" TIMESTAMPTZ(6) NOT NULL,
    "effective_from" DATE,
    "recorded_at" TIMESTAMPTZ(6) NOT NULL,
    "recorded_by" UUID NOT NULL,

    CONSTRAINT "offer_version_pkey" PRIMARY KEY ("offer_id","version")
);

-- CreateTable
CREATE TABLE "offer_ending" (
    "offer_id" UUID NOT NULL,
    "ending" TEXT NOT NULL,
    "by_party_id" UUID,
    "ended_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "offer_ending_pkey" PRIMARY KEY ("offer_id")
);

-- CreateTable
CREATE TABLE "signature" (
    "offer_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "party_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "fingerprint" CHAR(64) NOT NULL,
    "signed_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "signature_pkey" PRIMARY KEY ("offer_id","version","party_id")
);

-- CreateTable
CREATE TABLE "advice" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "adviser_id" UUID NOT NULL,
    "lot_id" UUID,
    "offer_id" UUID,
    "agreement_id" UUID,
    "since" TIMESTAMPTZ(6) NOT NULL,
    "ended_at" TIMESTAMPTZ(6),

    CONSTRAINT "advice_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "advice_note" (
    "advice_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "by_party_id" UUID NOT NULL,
    "by_name" TEXT NOT NULL,
    "text" TEXT NOT NULL,
    "written_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "advice_note_pkey" PRIMARY KEY ("advice_id","id")
);

-- CreateTable
CREATE TABLE "advice_draft" (
    "advice_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "document" TEXT NOT NULL,
    "by_name" TEXT NOT NULL,
    "written_at" TIMESTAMPTZ(6) NOT NULL,

    CONSTRAINT "advice_draft_pkey" PRIMARY KEY ("advice_id","id")
);

-- CreateTable
CREATE TABLE "share_link" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "purpose" TEXT NOT NULL,
    "lot_id" UUID,
    "offer_id" UUID,
    "agreement_id" UUID,
    "token_hash" CHAR(64) NOT NULL,
    "created_by" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(6) NOT NULL,
    "expires_at" TIMESTAMPTZ(6) NOT NULL,
    "used_at" TIMESTAMPTZ(6),
    "used_by_party" UUID,

    CONSTRAINT "share_link_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "notice" (
    "id" UUID NOT NULL,
    "party_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "subject_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(6) NOT NULL,
    "seen_at" TIMESTAMPTZ(6),
    "mailed_at" TIMESTAMPTZ(6),

    CONSTRAINT "notice_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE UNIQUE INDEX "signing_lot_id_key" ON "signing"("lot_id");

-- CreateIndex
CREATE UNIQUE INDEX "signing_agreement_id_version_id_key" ON "signing"("agreement_id", "version_id");

-- CreateIndex
CREATE UNIQUE INDEX "signing_offer_id_key" ON "signing"("offer_id");

-- CreateIndex
CREATE UNIQUE INDEX "signing_seller_id_serial_key" ON "signing"("seller_id", "serial");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_closing_offer_id_key" ON "agreement_closing"("offer_id");

-- CreateIndex
CREATE UNIQUE INDEX "agreement_closing_agreement_id_key" ON "agreement_closing"("agreement_id");

-- CreateIndex
CREATE UNIQUE INDEX "lot_seller_id_number_key" ON "lot"("seller_id", "number");

-- CreateIndex
CREATE INDEX "lot_file_lot_id_idx" ON "lot_file"("lot_id");

-- CreateIndex
CREATE INDEX "offer_lot_id_idx" ON "offer"("lot_id");

-- CreateIndex
CREATE INDEX "offer_agreement_id_idx" ON "offer"("agreement_id");

-- CreateIndex
CREATE INDEX "offer_seller_id_idx" ON "offer"("seller_id");

-- CreateIndex
CREATE INDEX "offer_buyer_id_idx" ON "offer"("buyer_id");

-- CreateIndex
CREATE UNIQUE INDEX "offer_version_offer_id_version_fingerprint_key" ON "offer_version"("offer_id", "version", "fingerprint");

-- CreateIndex
CREATE INDEX "advice_party_id_idx" ON "advice"("party_id");

-- CreateIndex
CREATE INDEX "advice_adviser_id_idx" ON "advice"("adviser_id");

-- CreateIndex
CREATE UNIQUE INDEX "share_link_token_hash_key" ON "share_link"("token_hash");

-- CreateIndex
CREATE INDEX "notice_party_id_at_idx" ON "notice"("party_id", "at");

-- AddForeignKey
ALTER TABLE "signing" ADD CONSTRAINT "signing_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signing" ADD CONSTRAINT "signing_agreement_id_version_id_fkey" FOREIGN KEY ("agreement_id", "version_id") REFERENCES "agreement_version"("agreement_id", "id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signing" ADD CONSTRAINT "signing_offer_id_offer_version_fkey" FOREIGN KEY ("offer_id", "offer_version") REFERENCES "offer_version"("offer_id", "version") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signing" ADD CONSTRAINT "signing_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement_closing" ADD CONSTRAINT "agreement_closing_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "agreement_closing" ADD CONSTRAINT "agreement_closing_offer_id_offer_version_fkey" FOREIGN KEY ("offer_id", "offer_version") REFERENCES "offer_version"("offer_id", "version") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot" ADD CONSTRAINT "lot_seller_id_fkey" FOREIGN KEY ("seller_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_version" ADD CONSTRAINT "lot_version_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_address" ADD CONSTRAINT "lot_address_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_guest" ADD CONSTRAINT "lot_guest_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_guest" ADD CONSTRAINT "lot_guest_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_file" ADD CONSTRAINT "lot_file_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "public_listing" ADD CONSTRAINT "public_listing_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "party_place" ADD CONSTRAINT "party_place_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_distance" ADD CONSTRAINT "lot_distance_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "lot_distance" ADD CONSTRAINT "lot_distance_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "offer" ADD CONSTRAINT "offer_seller_id_fkey" FOREIGN KEY ("seller_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "offer" ADD CONSTRAINT "offer_buyer_id_fkey" FOREIGN KEY ("buyer_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "offer" ADD CONSTRAINT "offer_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "offer" ADD CONSTRAINT "offer_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "offer_version" ADD CONSTRAINT "offer_version_offer_id_fkey" FOREIGN KEY ("offer_id") REFERENCES "offer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "offer_ending" ADD CONSTRAINT "offer_ending_offer_id_fkey" FOREIGN KEY ("offer_id") REFERENCES "offer"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "signature" ADD CONSTRAINT "signature_offer_id_version_fingerprint_fkey" FOREIGN KEY ("offer_id", "version", "fingerprint") REFERENCES "offer_version"("offer_id", "version", "fingerprint") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice" ADD CONSTRAINT "advice_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice" ADD CONSTRAINT "advice_adviser_id_fkey" FOREIGN KEY ("adviser_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice" ADD CONSTRAINT "advice_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice" ADD CONSTRAINT "advice_offer_id_fkey" FOREIGN KEY ("offer_id") REFERENCES "offer"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice" ADD CONSTRAINT "advice_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice_note" ADD CONSTRAINT "advice_note_advice_id_fkey" FOREIGN KEY ("advice_id") REFERENCES "advice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "advice_draft" ADD CONSTRAINT "advice_draft_advice_id_fkey" FOREIGN KEY ("advice_id") REFERENCES "advice"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "share_link" ADD CONSTRAINT "share_link_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "share_link" ADD CONSTRAINT "share_link_lot_id_fkey" FOREIGN KEY ("lot_id") REFERENCES "lot"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "share_link" ADD CONSTRAINT "share_link_offer_id_fkey" FOREIGN KEY ("offer_id") REFERENCES "offer"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "share_link" ADD CONSTRAINT "share_link_agreement_id_fkey" FOREIGN KEY ("agreement_id") REFERENCES "agreement"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "notice" ADD CONSTRAINT "notice_party_id_fkey" FOREIGN KEY ("party_id") REFERENCES "party"("id") ON DELETE RESTRICT ON UPDATE CASCADE;
-- ------------------------------------------------------------------ what Prisma's schema cannot say

-- A third role, for pages that anybody may open: it sees the extracts that sellers made public, and nothing else.
DO $$
BEGIN
  IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = 'huskledger_public') THEN
    BEGIN
      CREATE ROLE huskledger_public NOLOGIN NOSUPERUSER NOBYPASSRLS NOCREATEDB NOCREATEROLE NOINHERIT;
    EXCEPTION WHEN duplicate_object OR unique_violation THEN
      NULL; -- Another database of this server made it in the meantime.
    END;
  END IF;
  IF NOT pg_has_role(current_user, 'huskledger_public', 'MEMBER') THEN
    GRANT huskledger_public TO CURRENT_USER;
  END IF;
END $$;
GRANT USAGE ON SCHEMA public TO huskledger_public;

-- ---- words and figures that cannot be

ALTER TABLE "lot"
  ADD CONSTRAINT lot_state CHECK (state IN ('draft', 'posted', 'withdrawn', 'sold')),
  ADD CONSTRAINT lot_audience CHECK (audience IN ('everyone', 'invited')),
  ADD CONSTRAINT lot_posted_until CHECK (state <> 'posted' OR open_until IS NOT NULL);
ALTER TABLE "lot_file"
  ADD CONSTRAINT lot_file_kind CHECK (kind IN ('application/pdf', 'image/png', 'image/jpeg')),
  ADD CONSTRAINT lot_file_size CHECK (octet_length(bytes) BETWEEN 1 AND 10485760),
  ADD CONSTRAINT lot_file_fingerprint CHECK (fingerprint = encode(sha256(bytes), 'hex'));
ALTER TABLE "party_place"
  ADD CONSTRAINT party_place_on_earth CHECK (latitude BETWEEN -90 AND 90 AND longitude BETWEEN -180 AND 180);
ALTER TABLE "lot_distance" ADD CONSTRAINT lot_distance_length CHECK (length >= 0 AND unit IN ('mile', 'km'));
ALTER TABLE "offer"
  ADD CONSTRAINT offer_two_parties CHECK (seller_id <> buyer_id),
  ADD CONSTRAINT offer_purpose CHECK (
    (purpose = 'agreement' AND lot_id IS NOT NULL AND agreement_id IS NULL)
    OR (purpose IN ('amendment', 'closing') AND lot_id IS NULL AND agreement_id IS NOT NULL)
  );
ALTER TABLE "offer_version"
  ADD CONSTRAINT offer_version_counts CHECK (version >= 1),
  ADD CONSTRAINT offer_version_fingerprint
    CHECK (fingerprint = encode(sha256(convert_to(document, 'UTF8')), 'hex'));
ALTER TABLE "offer_ending"
  ADD CONSTRAINT offer_ending_word CHECK (ending IN ('withdrawn', 'declined', 'agreed', 'lot-sold', 'lot-withdrawn'));
ALTER TABLE "advice"
  ADD CONSTRAINT advice_two_parties CHECK (party_id <> adviser_id),
  ADD CONSTRAINT advice_on_one CHECK (num_nonnulls(lot_id, offer_id, agreement_id) = 1);
ALTER TABLE "share_link"
  ADD CONSTRAINT share_link_purpose CHECK (
    (purpose = 'lot-guest' AND lot_id IS NOT NULL AND num_nonnulls(offer_id, agreement_id) = 0)
    OR (purpose = 'adviser' AND num_nonnulls(lot_id, offer_id, agreement_id) = 1)
  );
-- One adviser looks at one thing for a party once at a time.
CREATE UNIQUE INDEX advice_once ON "advice" (party_id, adviser_id, coalesce(lot_id, offer_id, agreement_id))
  WHERE ended_at IS NULL;

-- ---- lots

-- A seller's lots and agreements are counted by the database, one after another, whoever asks.
CREATE FUNCTION number_lot() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  PERFORM pg_advisory_xact_lock(hashtextextended('lot number ' || NEW.seller_id::text, 0));
  SELECT coalesce(max(number), 0) + 1 INTO NEW.number FROM lot WHERE seller_id = NEW.seller_id;
  RETURN NEW;
END $$;
CREATE TRIGGER lot_numbered BEFORE INSERT ON "lot" FOR EACH ROW EXECUTE FUNCTION number_lot();

-- What is sold stays sold, to whom it was sold.
CREATE FUNCTION keep_sold() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.state = 'sold' AND NEW.state <> 'sold' THEN
    RAISE EXCEPTION 'A lot that is sold stays sold' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER lot_stays_sold BEFORE UPDATE ON "lot" FOR EACH ROW EXECUTE FUNCTION keep_sold();

-- A lot is under offer while one side's signature stands under the newest version of an open offer on it.
CREATE FUNCTION hold_lot(held uuid) RETURNS void LANGUAGE sql SECURITY DEFINER SET search_path = public, pg_temp AS $$
  UPDATE lot SET held_until = (
    SELECT max(v.valid_until) FROM offer o
    JOIN LATERAL (SELECT * FROM offer_version WHERE offer_id = o.id ORDER BY version DESC LIMIT 1) v ON true
    WHERE o.lot_id = held
      AND NOT EXISTS (SELECT FROM offer_ending e WHERE e.offer_id = o.id)
      AND EXISTS (SELECT FROM signature s WHERE s.offer_id = o.id AND s.version = v.version)
  ) WHERE id = held
$$;
REVOKE ALL ON FUNCTION hold_lot(uuid) FROM PUBLIC;

CREATE FUNCTION hold_lot_of_offer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  PERFORM hold_lot(lot_id) FROM offer WHERE id = NEW.offer_id AND lot_id IS NOT NULL;
  RETURN NULL;
END $$;
CREATE TRIGGER offer_version_holds AFTER INSERT ON "offer_version" FOR EACH ROW EXECUTE FUNCTION hold_lot_of_offer();
CREATE TRIGGER offer_ending_holds AFTER INSERT ON "offer_ending" FOR EACH ROW EXECUTE FUNCTION hold_lot_of_offer();
CREATE TRIGGER signature_holds AFTER INSERT ON "signature" FOR EACH ROW EXECUTE FUNCTION hold_lot_of_offer();

-- ---- offers and signatures

-- Whether a party may see a lot: its seller, whoever was invited, whoever has an offer on it, and everyone while it is
-- posted for everyone.
CREATE FUNCTION sees_lot(party uuid, seen uuid) RETURNS boolean LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (
    SELECT FROM lot l WHERE l.id = seen AND (
      l.seller_id = party
      OR (l.state = 'posted' AND l.audience = 'everyone')
      OR (l.state <> 'draft' AND EXISTS (SELECT FROM lot_guest g WHERE g.lot_id = l.id AND g.party_id = party))
      OR EXISTS (SELECT FROM offer o WHERE o.lot_id = l.id AND o.buyer_id = party)
    ))
$$;

CREATE FUNCTION check_offer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NEW.purpose = 'agreement' THEN
    IF NOT EXISTS (
      SELECT FROM lot WHERE id = NEW.lot_id AND seller_id = NEW.seller_id AND state = 'posted'
    ) OR NOT sees_lot(NEW.buyer_id, NEW.lot_id) THEN
      RAISE EXCEPTION 'An offer is made on a posted lot of the seller' USING ERRCODE = 'integrity_constraint_violation';
    END IF;
  ELSIF NOT EXISTS (
    SELECT FROM agreement WHERE id = NEW.agreement_id AND seller_id = NEW.seller_id AND buyer_id = NEW.buyer_id
  ) THEN
    RAISE EXCEPTION 'An amendment is between the parties of its agreement' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER offer_checked BEFORE INSERT ON "offer" FOR EACH ROW EXECUTE FUNCTION check_offer();

-- Versions and signatures come while the offer is open: versions without a gap, by either party; a signature by each
-- party under the newest alone.
CREATE FUNCTION check_offer_open() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
DECLARE
  newest int;
  author uuid;
BEGIN
  PERFORM pg_advisory_xact_lock(hashtextextended('offer ' || NEW.offer_id::text, 0));
  IF EXISTS (SELECT FROM offer_ending WHERE offer_id = NEW.offer_id) THEN
    RAISE EXCEPTION 'The offer is over' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  SELECT coalesce(max(version), 0) INTO newest FROM offer_version WHERE offer_id = NEW.offer_id;
  IF TG_TABLE_NAME = 'offer_version' THEN
    author := NEW.by_party_id;
    newest := newest + 1;
  ELSE
    author := NEW.party_id;
  END IF;
  IF NEW.version <> newest THEN
    RAISE EXCEPTION 'There is a newer version of the offer' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF NOT EXISTS (SELECT FROM offer WHERE id = NEW.offer_id AND author IN (seller_id, buyer_id)) THEN
    RAISE EXCEPTION 'Only the two parties of an offer may write to it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER offer_version_checked BEFORE INSERT ON "offer_version" FOR EACH ROW EXECUTE FUNCTION check_offer_open();
CREATE TRIGGER signature_checked BEFORE INSERT ON "signature" FOR EACH ROW EXECUTE FUNCTION check_offer_open();

-- ---- what both signed

-- An agreement's version, or its closing, counts as signed only where both parties' signatures stand under the very
-- document. A seller's agreements are numbered here, so that no number is left out, whatever fails or comes at once.
CREATE FUNCTION check_signing() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF (SELECT count(*) FROM signature s JOIN offer o ON o.id = s.offer_id
      JOIN agreement a ON a.id = NEW.agreement_id AND a.seller_id = o.seller_id AND a.buyer_id = o.buyer_id
      WHERE s.offer_id = NEW.offer_id AND s.version = NEW.offer_version AND s.party_id IN (o.seller_id, o.buyer_id)) <> 2
  THEN
    RAISE EXCEPTION 'Both parties must have signed' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  IF TG_TABLE_NAME = 'agreement_closing' THEN
    RETURN NEW;
  END IF;
  IF NOT EXISTS (
    SELECT FROM offer_version o JOIN agreement_version v ON v.fingerprint = o.fingerprint
    WHERE o.offer_id = NEW.offer_id AND o.version = NEW.offer_version
      AND v.agreement_id = NEW.agreement_id AND v.id = NEW.version_id
  ) OR NOT EXISTS (SELECT FROM agreement WHERE id = NEW.agreement_id AND seller_id = NEW.seller_id) THEN
    RAISE EXCEPTION 'What was signed is not this version' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  SELECT lot_id INTO NEW.lot_id FROM offer WHERE id = NEW.offer_id;
  NEW.serial := NULL;
  IF NEW.effective_from IS NULL THEN
    PERFORM pg_advisory_xact_lock(hashtextextended('agreement number ' || NEW.seller_id::text, 0));
    SELECT coalesce(max(serial), 0) + 1 INTO NEW.serial FROM signing WHERE seller_id = NEW.seller_id;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER signing_checked BEFORE INSERT ON "signing" FOR EACH ROW EXECUTE FUNCTION check_signing();
CREATE TRIGGER agreement_closing_checked BEFORE INSERT ON "agreement_closing" FOR EACH ROW EXECUTE FUNCTION check_signing();

-- A lot is sold once: whoever else has an offer on it is told that it went to another buyer, and nothing more. Done here
-- since whoever signs last sees no other buyer's offer.
CREATE FUNCTION sell_lot() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO offer_ending (offer_id, ending, by_party_id, ended_at)
    VALUES (NEW.offer_id, 'agreed', NULL, NEW.recorded_at);
  IF NEW.lot_id IS NULL THEN
    RETURN NULL;
  END IF;
  WITH others AS (
    SELECT id, buyer_id FROM offer o
    WHERE o.lot_id = NEW.lot_id AND o.id <> NEW.offer_id
      AND NOT EXISTS (SELECT FROM offer_ending e WHERE e.offer_id = o.id)
  ), ended AS (
    INSERT INTO offer_ending (offer_id, ending, by_party_id, ended_at)
      SELECT id, 'lot-sold', NULL, NEW.recorded_at FROM others
  )
  INSERT INTO notice (id, party_id, kind, subject_id, at)
    SELECT gen_random_uuid(), buyer_id, 'lot-sold', id, NEW.recorded_at FROM others;
  UPDATE lot SET state = 'sold', held_until = NULL WHERE id = NEW.lot_id;
  DELETE FROM public_listing WHERE lot_id = NEW.lot_id;
  RETURN NULL;
END $$;
CREATE TRIGGER signing_sells AFTER INSERT ON "signing" FOR EACH ROW EXECUTE FUNCTION sell_lot();

CREATE FUNCTION end_closing_offer() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO offer_ending (offer_id, ending, by_party_id, ended_at)
    VALUES (NEW.offer_id, 'agreed', NULL, NEW.recorded_at);
  RETURN NULL;
END $$;
CREATE TRIGGER agreement_closing_ends AFTER INSERT ON "agreement_closing" FOR EACH ROW EXECUTE FUNCTION end_closing_offer();

-- A party lets an adviser look at what it may see itself.
CREATE FUNCTION check_advice() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT (
    (NEW.lot_id IS NOT NULL AND sees_lot(NEW.party_id, NEW.lot_id))
    OR EXISTS (SELECT FROM offer WHERE id = NEW.offer_id AND NEW.party_id IN (seller_id, buyer_id))
    OR EXISTS (SELECT FROM agreement WHERE id = NEW.agreement_id AND NEW.party_id IN (seller_id, buyer_id))
  ) THEN
    RAISE EXCEPTION 'A party asks for advice on what it takes part in' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  -- A rival must not come in as an adviser.
  IF EXISTS (SELECT FROM offer WHERE id = NEW.offer_id AND NEW.adviser_id IN (seller_id, buyer_id))
    OR EXISTS (SELECT FROM agreement WHERE id = NEW.agreement_id AND NEW.adviser_id IN (seller_id, buyer_id))
    OR EXISTS (SELECT FROM lot WHERE id = NEW.lot_id AND seller_id = NEW.adviser_id) THEN
    RAISE EXCEPTION 'A party cannot advise on what it takes part in itself' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER advice_checked BEFORE INSERT ON "advice" FOR EACH ROW EXECUTE FUNCTION check_advice();

-- ---- nothing written is changed

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'signing', 'agreement_closing', 'lot_version', 'lot_address', 'lot_guest', 'lot_file', 'offer', 'offer_version',
    'offer_ending', 'signature', 'advice_note', 'advice_draft'
  ] LOOP
    EXECUTE format('CREATE TRIGGER %I BEFORE UPDATE OR DELETE ON %I FOR EACH ROW EXECUTE FUNCTION refuse_change()', table_name || '_written_once', table_name);
    EXECUTE format('CREATE TRIGGER %I BEFORE TRUNCATE ON %I FOR EACH STATEMENT EXECUTE FUNCTION refuse_change()', table_name || '_not_emptied', table_name);
    EXECUTE format('GRANT SELECT, INSERT ON %I TO huskledger_app', table_name);
  END LOOP;
END $$;

REVOKE ALL ON ALL TABLES IN SCHEMA public FROM PUBLIC;
GRANT SELECT, INSERT, UPDATE (state, audience, open_until) ON "lot" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON "public_listing", "party_place", "lot_distance" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE (ended_at) ON "advice" TO huskledger_app;
GRANT SELECT, INSERT, UPDATE (seen_at) ON "notice" TO huskledger_app;
GRANT INSERT ON "share_link" TO huskledger_app;
GRANT SELECT, UPDATE (used_at, used_by_party) ON "share_link" TO huskledger_door;
GRANT INSERT ON "lot_guest", "advice", "notice" TO huskledger_door;
GRANT SELECT, UPDATE (mailed_at) ON "notice" TO huskledger_door;
GRANT UPDATE (mail) ON "member" TO huskledger_door;
GRANT SELECT ON "public_listing" TO huskledger_public;

-- ---- nobody sees another's rows

DO $$
DECLARE table_name text;
BEGIN
  FOREACH table_name IN ARRAY ARRAY[
    'signing', 'agreement_closing', 'lot', 'lot_version', 'lot_address', 'lot_guest', 'lot_file', 'public_listing',
    'party_place', 'lot_distance', 'offer', 'offer_version', 'offer_ending', 'signature', 'advice', 'advice_note',
    'advice_draft', 'share_link', 'notice'
  ] LOOP
    EXECUTE format('ALTER TABLE %I ENABLE ROW LEVEL SECURITY', table_name);
  END LOOP;
  -- An adviser sees what stands under an agreement, and writes nothing there.
  FOREACH table_name IN ARRAY ARRAY[
    'agreement_version', 'series', 'quote', 'load', 'sample', 'sample_load', 'result', 'election', 'choice',
    'settlement', 'settlement_line', 'settlement_price', 'settlement_quote', 'journal_entry', 'posting', 'account_balance'
  ] LOOP
    EXECUTE format('DROP POLICY of_its_parties ON %I', table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY[
    'agreement_version', 'series', 'quote', 'load', 'sample', 'sample_load', 'result', 'election', 'choice',
    'settlement', 'settlement_line', 'settlement_price', 'settlement_quote', 'journal_entry', 'posting', 'account_balance',
    'signing', 'agreement_closing'
  ] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app USING (agreement_id IN (SELECT id FROM agreement))
       WITH CHECK (agreement_id IN (SELECT id FROM agreement WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
  -- Rows of an offer: its two parties, and who advises one of them on it.
  FOREACH table_name IN ARRAY ARRAY['offer_version', 'offer_ending', 'signature'] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_parties ON %I TO huskledger_app USING (offer_id IN (SELECT id FROM offer))
       WITH CHECK (offer_id IN (SELECT id FROM offer WHERE current_party() IN (seller_id, buyer_id)))',
      table_name);
  END LOOP;
  -- Rows of a lot: read by whoever sees it, written by its seller.
  FOREACH table_name IN ARRAY ARRAY['lot_file', 'public_listing'] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_lot ON %I TO huskledger_app USING (lot_id IN (SELECT id FROM lot))
       WITH CHECK (lot_id IN (SELECT id FROM lot WHERE seller_id = current_party()))',
      table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY['party_place', 'lot_distance'] LOOP
    EXECUTE format(
      'CREATE POLICY of_its_party ON %I TO huskledger_app USING (party_id = current_party()) WITH CHECK (party_id = current_party())',
      table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY['advice_note', 'advice_draft'] LOOP
    EXECUTE format(
      'CREATE POLICY between_the_two ON %I TO huskledger_app USING (advice_id IN (SELECT id FROM advice))
       WITH CHECK (advice_id IN (SELECT id FROM advice WHERE ended_at IS NULL))',
      table_name);
  END LOOP;
  FOREACH table_name IN ARRAY ARRAY['share_link', 'lot_guest', 'advice', 'notice'] LOOP
    EXECUTE format('CREATE POLICY at_the_door ON %I TO huskledger_door USING (true) WITH CHECK (true)', table_name);
  END LOOP;
END $$;

DROP POLICY of_its_parties ON "agreement";
CREATE POLICY of_its_parties ON "agreement" TO huskledger_app
  USING (
    current_party() IN (seller_id, buyer_id)
    OR id IN (SELECT agreement_id FROM advice WHERE adviser_id = current_party() AND ended_at IS NULL)
  )
  WITH CHECK (current_party() IN (seller_id, buyer_id));

CREATE POLICY of_its_parties ON "offer" TO huskledger_app
  USING (
    current_party() IN (seller_id, buyer_id)
    OR id IN (SELECT offer_id FROM advice WHERE adviser_id = current_party() AND ended_at IS NULL)
  )
  WITH CHECK (current_party() IN (seller_id, buyer_id));
-- Nobody writes or signs for another party.
CREATE POLICY by_its_author ON "offer_version" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (by_party_id = current_party());
CREATE POLICY by_its_author ON "signature" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (party_id = current_party());

CREATE POLICY of_its_seller ON "lot" TO huskledger_app
  USING (seller_id = current_party()) WITH CHECK (seller_id = current_party());
CREATE POLICY posted ON "lot" FOR SELECT TO huskledger_app
  USING (
    (state = 'posted' AND audience = 'everyone')
    OR (state <> 'draft' AND id IN (SELECT lot_id FROM lot_guest WHERE party_id = current_party()))
    OR id IN (SELECT lot_id FROM offer)
    OR id IN (SELECT lot_id FROM advice WHERE adviser_id = current_party() AND ended_at IS NULL)
  );
CREATE POLICY of_its_seller ON "lot_version" TO huskledger_app
  USING (lot_id IN (SELECT id FROM lot WHERE seller_id = current_party()))
  WITH CHECK (lot_id IN (SELECT id FROM lot WHERE seller_id = current_party()));
CREATE POLICY shown ON "lot_version" FOR SELECT TO huskledger_app
  USING (is_shown AND lot_id IN (SELECT id FROM lot));
-- The address is the seller's alone until both have signed.
CREATE POLICY of_its_seller ON "lot_address" TO huskledger_app
  USING (lot_id IN (SELECT id FROM lot WHERE seller_id = current_party()))
  WITH CHECK (lot_id IN (SELECT id FROM lot WHERE seller_id = current_party()));
CREATE POLICY told_to_its_buyer ON "lot_address" FOR SELECT TO huskledger_app
  USING (lot_id IN (SELECT s.lot_id FROM signing s JOIN agreement a ON a.id = s.agreement_id WHERE a.buyer_id = current_party()));
CREATE POLICY of_the_two ON "lot_guest" TO huskledger_app
  USING (current_party() IN (party_id, seller_id)) WITH CHECK (current_party() = seller_id);

CREATE POLICY of_the_two ON "advice" TO huskledger_app
  USING (current_party() IN (party_id, adviser_id)) WITH CHECK (current_party() = party_id);
CREATE POLICY by_its_party ON "share_link" FOR INSERT TO huskledger_app WITH CHECK (party_id = current_party());

CREATE POLICY its_own ON "notice" FOR SELECT TO huskledger_app USING (party_id = current_party());
CREATE POLICY its_own_seen ON "notice" FOR UPDATE TO huskledger_app
  USING (party_id = current_party()) WITH CHECK (party_id = current_party());
CREATE POLICY to_partners ON "notice" FOR INSERT TO huskledger_app WITH CHECK (party_id IN (SELECT id FROM party));

CREATE POLICY posted_in_public ON "public_listing" FOR SELECT TO huskledger_public USING (open_until > now());

DROP POLICY itself_and_its_partners ON "party";
CREATE POLICY itself_and_its_partners ON "party" FOR SELECT TO huskledger_app
  USING (
    id = current_party()
    OR id IN (
      SELECT seller_id FROM agreement UNION ALL SELECT buyer_id FROM agreement
      UNION ALL SELECT seller_id FROM offer UNION ALL SELECT buyer_id FROM offer
      UNION ALL SELECT seller_id FROM lot
      UNION ALL SELECT party_id FROM lot_guest
      UNION ALL SELECT party_id FROM advice UNION ALL SELECT adviser_id FROM advice
    )
  );
