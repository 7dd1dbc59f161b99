-- Advice: who ends it, who writes in it, and that nobody advises a rival.

-- ---- it ends, by either of the two, and stays ended

CREATE FUNCTION keep_advice_ended() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF OLD.ended_at IS NOT NULL AND NEW.ended_at IS DISTINCT FROM OLD.ended_at THEN
    RAISE EXCEPTION 'Advice that has ended stays ended' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER advice_stays_ended BEFORE UPDATE ON "advice" FOR EACH ROW EXECUTE FUNCTION keep_advice_ended();

CREATE POLICY ended_by_its_adviser ON "advice" FOR UPDATE TO huskledger_app
  USING (adviser_id = current_party()) WITH CHECK (adviser_id = current_party());

-- ---- nobody writes in another's name; drafts are the adviser's

CREATE POLICY by_its_author ON "advice_note" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (by_party_id = current_party());
CREATE POLICY by_the_adviser ON "advice_draft" AS RESTRICTIVE FOR INSERT TO huskledger_app
  WITH CHECK (advice_id IN (SELECT id FROM advice WHERE adviser_id = current_party()));

-- ---- a lot that only its seller sees is seen by the seller's adviser, too

CREATE POLICY told_to_its_adviser ON "lot_version" FOR SELECT TO huskledger_app
  USING (lot_id IN (
    SELECT a.lot_id FROM advice a JOIN lot l ON l.id = a.lot_id AND l.seller_id = a.party_id
    WHERE a.adviser_id = current_party() AND a.ended_at IS NULL
  ));

-- ---- who bids on a lot advises nobody else on it, and the other way round

CREATE FUNCTION refuse_rival_adviser() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT FROM offer own
    WHERE own.buyer_id = NEW.adviser_id
      AND own.lot_id = coalesce(NEW.lot_id, (SELECT lot_id FROM offer WHERE id = NEW.offer_id))
      AND NOT EXISTS (SELECT FROM offer_ending e WHERE e.offer_id = own.id)
  ) THEN
    RAISE EXCEPTION 'Who bids on a lot does not advise on it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER advice_by_no_rival BEFORE INSERT ON "advice" FOR EACH ROW EXECUTE FUNCTION refuse_rival_adviser();

CREATE FUNCTION refuse_bidding_adviser() RETURNS trigger LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF EXISTS (
    SELECT FROM advice a LEFT JOIN offer o ON o.id = a.offer_id
    WHERE a.adviser_id = NEW.buyer_id AND a.ended_at IS NULL AND NEW.lot_id IN (a.lot_id, o.lot_id)
  ) THEN
    RAISE EXCEPTION 'Who advises on a lot does not bid on it' USING ERRCODE = 'integrity_constraint_violation';
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER offer_by_no_adviser BEFORE INSERT ON "offer" FOR EACH ROW EXECUTE FUNCTION refuse_bidding_adviser();
