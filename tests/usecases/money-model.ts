/**
 * A small model in memory of the money between two parties, for random sequences: what each verb does to it, or the code
 * that it is refused with. Whole cents and plain days; it shares no code with the product, so that one mistake is not made
 * in both.
 */

export type Side = 'seller' | 'buyer';
/** A code of refusal, or undefined where it was done. */
export type Told = string | undefined;

export interface ModelTerms {
  readonly invoices: 'load' | 'day' | 'week' | undefined;
  readonly netDays: number;
  readonly from: 'invoice' | 'delivery' | 'settlement';
  readonly issuedBy: Side;
  /** In percent, and days after the invoice. */
  readonly discount: { readonly percent: bigint; readonly withinDays: number } | undefined;
  /** Cents. */
  readonly fee: bigint | undefined;
  /** Percent a year, by actual days of 365. */
  readonly interest: bigint | undefined;
  /** 80 % of 90.00 a short ton as delivered. */
  readonly isAdvanced: boolean;
  /** 2.125 a short ton as delivered, and 0.5 % of the price. */
  readonly isDeducted: boolean;
}

export interface ModelLoad {
  readonly ticket: string;
  readonly day: string;
  id: string;
  net: bigint;
  version: number;
  isVoid: boolean;
  /** Tenths of a percent of dry matter, once it is reported. */
  dry: bigint | undefined;
  /** Cents, once it has settled. */
  total: bigint | undefined;
  settledOn: string;
  /** What documents brought so far. */
  brought: { total: bigint; deducted: bigint; on: ModelDocument } | undefined;
  advance: { amount: bigint; on: ModelDocument; isUsed: boolean } | undefined;
}

export interface ModelDocument {
  readonly serial: number;
  readonly kind: string;
  readonly issuedOn: string;
  readonly dueOn: string;
  readonly payable: bigint;
  /** By ticket: what of it stands on this document. */
  readonly loads: ReadonlyMap<string, bigint>;
  id: string;
  /** Of interest: what was charged for each document by its serial, and through which day. */
  readonly interest?: { readonly units: ReadonlyMap<number, bigint>; readonly through: string };
}

interface Taken {
  readonly of: ModelDocument;
  readonly amount: bigint;
  readonly discount: bigint;
  readonly on: string;
  readonly by: 'payment' | 'set-off' | 'credit';
  readonly payment?: ModelPayment;
}

export interface Part {
  readonly of: ModelDocument;
  readonly amount: bigint;
}

export interface PaymentAsked {
  readonly direction: 'paid' | 'received';
  readonly amount: bigint;
  readonly paidOn: string;
  readonly reference: string | null;
  readonly spread: 'oldest-first' | 'in-proportion' | 'as-said';
  readonly parts: readonly Part[];
  readonly isJoint: boolean;
  readonly pastLien: boolean;
  readonly isConfirmed: boolean;
}

export interface ModelPayment extends PaymentAsked {
  readonly by: Side;
  readonly payer: Side;
  id: string;
  answer: string | undefined;
  isBack: boolean;
}

export interface ModelHold {
  readonly of: ModelDocument;
  readonly ticket: string | undefined;
  readonly amount: bigint;
  readonly by: Side;
  readonly correction: ModelCorrection | undefined;
  readonly from: string;
  id: string;
  endedOn: string | undefined;
}

export interface ModelSetOff extends Pick<PaymentAsked, 'amount' | 'spread' | 'parts'> {
  readonly by: Side;
  id: string;
  answer: string | undefined;
}

export interface ModelCorrection {
  readonly load: ModelLoad;
  readonly net: bigint;
  readonly by: Side;
  id: string;
  answer: string | undefined;
}

export interface ModelLien {
  readonly lender: string;
  readonly receivedOn: string;
  id: string;
  isOver: boolean;
}

export class MoneyModel {
  readonly loads: ModelLoad[] = [];
  readonly documents: ModelDocument[] = [];
  readonly payments: ModelPayment[] = [];
  readonly holds: ModelHold[] = [];
  readonly setOffs: ModelSetOff[] = [];
  readonly corrections: ModelCorrection[] = [];
  readonly liens: ModelLien[] = [];
  private taken: Taken[] = [];

  constructor(
    readonly terms: ModelTerms,
    public today: string,
  ) {}

  // ---- how it stands

  open(document: ModelDocument): bigint {
    if (document.payable < 0n) return 0n;
    return document.payable - sumOf(this.takenOf(document), ({ amount, discount }) => amount + discount);
  }

  held(document: ModelDocument): bigint {
    return sumOf(this.liveHolds(document), ({ amount }) => amount);
  }

  due(document: ModelDocument): bigint {
    return this.open(document) - this.held(document);
  }

  onAccount(): bigint {
    const paid = sumOf(this.payments.filter(counts), ({ payer, amount }) =>
      payer === 'buyer' ? amount : -amount,
    );
    const credited = sumOf(this.documents, ({ payable }) => (payable < 0n ? -payable : 0n));
    return paid + credited - sumOf(this.active(), ({ amount }) => amount);
  }

  /** What each account of the journal is to stand at. */
  accounts(): Readonly<Record<string, bigint>> {
    const open = sumOf(this.documents, (document) => this.open(document));
    const held = sumOf(this.documents, (document) => this.held(document));
    const worth = sumOf(this.loads, ({ total }) => total ?? 0n);
    const onAccount = -this.onAccount();
    const brought = sumOf(this.loads, (load) => load.brought?.total ?? 0n);
    const deducted = sumOf(this.loads, (load) => load.brought?.deducted ?? 0n);
    const own = (kinds: readonly string[]) =>
      sumOf(this.documents, ({ kind, payable, interest }) =>
        kinds.includes(kind) && (kind !== 'credit-note' || interest) ? payable : 0n,
      );
    return {
      'buyer-owes-seller': worth - brought,
      'worth-of-feed': -worth,
      invoices: open - held,
      held,
      'on-account': onAccount,
      deductions: deducted,
      discounts: sumOf(this.active(), ({ discount }) => discount),
      paid: sumOf(this.payments.filter(counts), ({ payer, amount }) =>
        payer === 'buyer' ? amount : -amount,
      ),
      advances: -sumOf(this.loads, ({ advance }) => (advance && !advance.isUsed ? advance.amount : 0n)),
      interest: -own(['interest', 'credit-note']),
      fees: -own(['fee']),
    };
  }

  // ---- loads

  deliver(ticket: string, net: bigint, day: string): ModelLoad {
    const load: ModelLoad = {
      ...{ ticket, day, net, id: '', version: 1, isVoid: false, dry: undefined, total: undefined },
      ...{ settledOn: '', brought: undefined, advance: undefined },
    };
    this.loads.push(load);
    return load;
  }

  settle(): void {
    for (const load of this.loads) {
      if (load.isVoid || load.total !== undefined || load.dry === undefined) continue;
      load.total = worth(load.net, load.dry);
      load.settledOn = this.today;
    }
  }

  voidLoad(load: ModelLoad): Told {
    if (load.total !== undefined) return 'already-settled';
    if (!load.isVoid) load.version++;
    load.isVoid = true;
    return undefined;
  }

  // ---- documents

  issue(side: Side, isOpenToo: boolean): Told {
    if (side !== this.terms.issuedBy) return 'not-yours';
    const groups = new Map<string, ModelLoad[]>();
    const inOrder = this.loads.toSorted((a, b) => (a.day === b.day ? 0 : a.day < b.day ? -1 : 1));
    for (const load of inOrder) {
      if (load.isVoid || load.total === undefined || load.brought) continue;
      const key = this.periodOf(load);
      groups.set(key, [...(groups.get(key) ?? []), load]);
    }
    // What is void gives its advance back; these are worked out by what stood before anything is issued.
    const voided = new Map<ModelDocument, ModelLoad[]>();
    for (const load of inOrder) {
      if (!load.isVoid || !load.advance || load.advance.isUsed) continue;
      voided.set(load.advance.on, [...(voided.get(load.advance.on) ?? []), load]);
    }
    for (const loads of groups.values()) if (isOpenToo || this.isOver(loads)) this.invoice(loads);
    for (const [document, loads] of voided) {
      const parts = new Map(loads.map(({ ticket, advance }) => [ticket, -(advance?.amount ?? 0n)]));
      for (const { advance } of loads) if (advance) advance.isUsed = true;
      this.note(document, parts);
    }
    return undefined;
  }

  private periodOf({ day, ticket }: ModelLoad): string {
    const { invoices } = this.terms;
    if (invoices === undefined) return 'all';
    return invoices === 'load' ? ticket : invoices === 'day' ? day : sundayOf(day);
  }

  private isOver([first]: readonly ModelLoad[]): boolean {
    const { invoices } = this.terms;
    if (!first || invoices === undefined || invoices === 'load') return true;
    return this.periodOf(first) < this.today;
  }

  private invoice(loads: readonly ModelLoad[]): void {
    const parts = new Map<string, bigint>();
    for (const load of loads) {
      const total = load.total ?? 0n;
      const advance = load.advance && !load.advance.isUsed ? load.advance.amount : 0n;
      parts.set(load.ticket, total - this.deducted(load.net, total) - advance);
      if (load.advance) load.advance.isUsed = true;
    }
    const { from } = this.terms;
    const days = from === 'delivery' ? loads.map(({ day }) => day) : loads.map((load) => load.settledOn);
    const start = from === 'invoice' ? this.today : (days.toSorted().at(-1) ?? this.today);
    const document = this.write('invoice', parts, this.dueFrom(start));
    for (const load of loads) {
      const total = load.total ?? 0n;
      load.brought = { total, deducted: this.deducted(load.net, total), on: document };
    }
  }

  /** A credit or debit note on a document: it answers holds, and lowers the document as far as that is open. */
  private note(corrected: ModelDocument, parts: ReadonlyMap<string, bigint>): ModelDocument {
    const payable = sumOf([...parts.values()], (amount) => amount);
    for (const hold of this.liveHolds(corrected)) {
      if (hold.ticket !== undefined && parts.has(hold.ticket)) hold.endedOn = this.today;
    }
    if (this.held(corrected) > this.open(corrected) + payable) {
      for (const hold of this.liveHolds(corrected)) hold.endedOn = this.today;
    }
    const isCredit = payable < 0n;
    const open = this.open(corrected);
    const due = isCredit ? this.today : this.dueFrom(this.today);
    const document = this.write(isCredit ? 'credit-note' : 'debit-note', parts, due);
    const amount = isCredit ? least(-payable, open) : 0n;
    if (amount > 0n) {
      this.taken.push({ of: corrected, amount, discount: 0n, on: corrected.issuedOn, by: 'credit' });
      this.credits.push({ of: corrected, parts, on: this.today });
    }
    return document;
  }

  /** Notes that lowered a document, for interest. */
  private credits: { of: ModelDocument; parts: ReadonlyMap<string, bigint>; on: string }[] = [];

  private dueFrom(start: string): string {
    const [, last = ''] = [plusDays(start, this.terms.netDays), this.today].toSorted();
    return last;
  }

  private write(
    kind: string,
    loads: ReadonlyMap<string, bigint>,
    dueOn: string,
    more: { payable?: bigint; interest?: NonNullable<ModelDocument['interest']> } = {},
  ): ModelDocument {
    const payable = more.payable ?? sumOf([...loads.values()], (amount) => amount);
    const serial = this.documents.length + 1;
    const { interest } = more;
    const document: ModelDocument = {
      ...{ serial, kind, issuedOn: this.today, dueOn, payable, loads, id: '' },
      ...(interest === undefined ? {} : { interest }),
    };
    this.documents.push(document);
    return document;
  }

  private deducted(net: bigint, total: bigint): bigint {
    if (!this.terms.isDeducted) return 0n;
    return halfUp(net * 2125n, 20_000n) + halfUp(total * 5n, 1000n);
  }

  giveAdvances(side: Side): Told {
    if (side !== this.terms.issuedBy) return 'not-yours';
    if (!this.terms.isAdvanced) return 'not-ready';
    // 90.00 a short ton of 2,000 lb.
    const units = (net: bigint) => halfUp(halfUp(net * 9000n, 2000n) * 80n, 100n);
    const loads = this.loads.filter(
      ({ isVoid, total, dry, advance }) => !isVoid && total === undefined && dry === undefined && !advance,
    );
    if (loads.length === 0) return undefined;
    const parts = new Map(loads.map(({ ticket, net }) => [ticket, units(net)]));
    const document = this.write('advance', parts, this.today);
    for (const load of loads) load.advance = { amount: units(load.net), on: document, isUsed: false };
    return undefined;
  }

  chargeInterest(side: Side, through: string): Told {
    if (side !== this.terms.issuedBy) return 'not-yours';
    if (this.terms.interest === undefined) return 'not-ready';
    if (through > this.today) return 'bad-input';
    const before = this.documents.flatMap(({ interest }) => (interest ? [interest] : []));
    if (before.some((charged) => charged.through > through)) return 'bad-input';
    const units = new Map<number, bigint>();
    for (const document of this.documents) {
      if (document.payable <= 0n || document.kind === 'interest') continue;
      const charged = sumOf(before, (one) => one.units.get(document.serial) ?? 0n);
      const now = this.interestOn(document, through) - charged;
      if (now !== 0n) units.set(document.serial, now);
    }
    const payable = sumOf([...units.values()], (amount) => amount);
    if (payable === 0n) return undefined;
    const kind = payable < 0n ? 'credit-note' : 'interest';
    const due = payable < 0n ? this.today : this.dueFrom(this.today);
    this.write(kind, new Map(), due, { payable, interest: { units, through } });
    return undefined;
  }

  /** Day by day: what is late on a day bears a day's part of the year's interest. */
  private interestOn(document: ModelDocument, through: string): bigint {
    let sum = 0n;
    for (let day = plusDays(document.dueOn, 1); day <= through; day = plusDays(day, 1)) {
      const settled = this.takenOf(document).filter(({ on }) => on < day);
      const owed = document.payable - sumOf(settled, ({ amount, discount }) => amount + discount);
      const late = owed - this.heldOn(document, day);
      if (late > 0n) sum += late;
    }
    return halfUp(sum * (this.terms.interest ?? 0n), 36_500n);
  }

  /** What was held on a day, and is not off the document from its first day by a note that came later. */
  private heldOn(document: ModelDocument, day: string): bigint {
    const standing = this.holds.filter(
      (hold) =>
        hold.of === document && hold.from < day && (hold.endedOn === undefined || hold.endedOn >= day),
    );
    const later = this.credits.filter((credit) => credit.of === document && credit.on >= day);
    const tickets = new Set(standing.map(({ ticket }) => ticket));
    return sumOf([...tickets], (ticket) => {
      const held = sumOf(
        standing.filter((hold) => hold.ticket === ticket),
        ({ amount }) => amount,
      );
      const credited = sumOf(later, ({ parts }) => (ticket === undefined ? 0n : -(parts.get(ticket) ?? 0n)));
      return held > credited ? held - (credited > 0n ? credited : 0n) : 0n;
    });
  }

  // ---- payments

  pay(by: Side, asked: PaymentAsked): Told {
    if (asked.amount <= 0n || asked.paidOn > this.today) return 'bad-input';
    if (this.isWrongSpread(asked)) return 'bad-input';
    const payer: Side = (by === 'buyer') === (asked.direction === 'paid') ? 'buyer' : 'seller';
    if (payer === 'seller' && asked.amount > this.onAccount()) return 'bad-input';
    if (payer === 'buyer' && this.liens.some(({ isOver }) => !isOver) && !asked.isJoint) {
      if (!asked.isConfirmed) return 'unusual';
      if (!asked.pastLien) return 'bad-input';
    }
    const due = sumOf(this.documents, (document) => this.due(document));
    const twin = this.payments.some(
      (other) =>
        (other.answer === undefined || other.answer === 'confirmed') &&
        other.payer === payer &&
        other.amount === asked.amount &&
        other.paidOn === asked.paidOn &&
        other.reference === asked.reference,
    );
    if (!asked.isConfirmed && (twin || (payer === 'buyer' && asked.amount > due))) return 'unusual';
    const payment: ModelPayment = { ...asked, by, payer, id: '', answer: undefined, isBack: false };
    this.payments.push(payment);
    if (asked.direction === 'received') this.count(payment);
    return undefined;
  }

  answer(side: Side, payment: ModelPayment, word: string, reason: string): Told {
    if (payment.answer !== undefined) return 'ended-already';
    if (word === 'withdrawn' ? payment.by !== side : payment.payer === side) return 'not-yours';
    if (word === 'confirmed') {
      if (payment.payer === 'seller' && payment.amount > this.onAccount()) return 'not-ready';
      this.count(payment);
      return undefined;
    }
    if (word === 'contested' && reason === '') return 'bad-input';
    payment.answer = word;
    return undefined;
  }

  private count(payment: ModelPayment): void {
    const shares = payment.payer === 'seller' ? [] : this.spread(payment, payment.paidOn);
    payment.answer = 'confirmed';
    for (const share of shares) this.taken.push({ ...share, on: payment.paidOn, by: 'payment', payment });
  }

  reverse(side: Side, payment: ModelPayment, on: string, reason: string): Told {
    if (payment.payer === side) return 'not-yours';
    if (payment.answer !== 'confirmed') return 'not-ready';
    if (payment.isBack) return 'ended-already';
    if (on < payment.paidOn || on > this.today || reason === '') return 'bad-input';
    payment.isBack = true;
    const { fee } = this.terms;
    if (fee !== undefined && payment.payer === 'buyer') {
      this.write('fee', new Map(), this.today, { payable: fee });
    }
    return undefined;
  }

  /** Parts that are named twice, are more than is due, more than the whole, or none. */
  private isWrongSpread({
    spread,
    parts,
    amount,
  }: Pick<PaymentAsked, 'spread' | 'parts' | 'amount'>): boolean {
    if (spread !== 'as-said') return false;
    if (parts.length === 0 || new Set(parts.map(({ of }) => of)).size < parts.length) return true;
    if (parts.some((part) => part.amount <= 0n || part.amount > this.due(part.of))) return true;
    return sumOf(parts, (part) => part.amount) > amount;
  }

  /** Which documents take how much. A discount is earned on what nobody questions and is paid whole in time. */
  private spread(
    { spread, parts, amount }: Pick<PaymentAsked, 'spread' | 'parts' | 'amount'>,
    paidOn: string | undefined,
  ): Pick<Taken, 'of' | 'amount' | 'discount'>[] {
    const takers = this.documents
      .filter((document) => this.due(document) > 0n)
      .toSorted((a, b) => (a.dueOn === b.dueOn ? a.serial - b.serial : a.dueOn < b.dueOn ? -1 : 1));
    const saved = new Map(takers.map((of) => [of, paidOn === undefined ? 0n : this.earned(of, paidOn)]));
    const whole = (of: ModelDocument) => this.due(of) - (saved.get(of) ?? 0n);
    const needed = sumOf(takers, whole);
    if (spread === 'in-proportion' && amount < needed) {
      const exact = takers.map((of) => ({
        of,
        share: (amount * whole(of)) / needed,
        rest: (amount * whole(of)) % needed,
      }));
      let left = amount - sumOf(exact, ({ share }) => share);
      for (const one of exact.toSorted((a, b) => (a.rest === b.rest ? 0 : a.rest > b.rest ? -1 : 1))) {
        if (left === 0n) break;
        one.share += 1n;
        left -= 1n;
      }
      return exact.flatMap(({ of, share }) => (share > 0n ? [{ of, amount: share, discount: 0n }] : []));
    }
    const wanted: readonly Part[] =
      spread === 'as-said'
        ? parts.filter(({ of }) => takers.includes(of))
        : takers.map((of) => ({ of, amount: this.due(of) }));
    let left = amount;
    return wanted.flatMap(({ of, amount: most }) => {
      const given = least(left, least(most, this.due(of)));
      const isWhole = given >= whole(of);
      const taken = isWhole ? whole(of) : given;
      left -= taken;
      return taken > 0n ? [{ of, amount: taken, discount: isWhole ? (saved.get(of) ?? 0n) : 0n }] : [];
    });
  }

  private earned(document: ModelDocument, paidOn: string): bigint {
    const { discount } = this.terms;
    if (!discount || document.kind !== 'invoice' || this.held(document) > 0n) return 0n;
    if (paidOn > plusDays(document.issuedOn, discount.withinDays)) return 0n;
    const credited = sumOf(
      this.takenOf(document).filter(({ by }) => by === 'credit'),
      ({ amount }) => amount,
    );
    const saved = halfUp((document.payable - credited) * discount.percent, 100n);
    return saved < this.open(document) ? saved : 0n;
  }

  // ---- holds

  hold(
    side: Side,
    of: ModelDocument,
    asked: { ticket: string | undefined; figure: bigint; reason: string },
  ): Told {
    if (side !== 'buyer') return 'not-yours';
    const { ticket, figure, reason } = asked;
    if (this.due(of) <= 0n) return 'not-ready';
    const part = ticket === undefined ? of.payable : of.loads.get(ticket);
    if (part === undefined) return 'not-found';
    if (figure < 0n || figure >= part || part - figure > this.due(of) || reason === '') return 'bad-input';
    this.place({ of, ticket, amount: part - figure, by: side, correction: undefined });
    return undefined;
  }

  private place(hold: Omit<ModelHold, 'from' | 'id' | 'endedOn'>): void {
    this.holds.push({ ...hold, from: this.today, id: '', endedOn: undefined });
  }

  release(side: Side, hold: ModelHold): Told {
    if (hold.by !== side) return 'not-yours';
    if (hold.endedOn !== undefined) return 'ended-already';
    if (hold.correction) return 'correction-open';
    hold.endedOn = this.today;
    return undefined;
  }

  // ---- set-offs

  proposeSetOff(by: Side, asked: Pick<PaymentAsked, 'amount' | 'spread' | 'parts'>): Told {
    if (asked.amount <= 0n || asked.amount > this.onAccount() || this.isWrongSpread(asked))
      return 'bad-input';
    this.setOffs.push({ ...asked, by, id: '', answer: undefined });
    return undefined;
  }

  answerSetOff(side: Side, setOff: ModelSetOff, word: string, reason: string): Told {
    if (setOff.answer !== undefined) return 'ended-already';
    if ((word === 'withdrawn') !== (setOff.by === side)) return 'not-yours';
    if (word === 'refused' && reason === '') return 'bad-input';
    if (word === 'confirmed') {
      if (setOff.amount > this.onAccount()) return 'not-ready';
      const shares = this.spread(setOff, undefined);
      if (shares.length === 0) return 'not-ready';
      for (const share of shares) this.taken.push({ ...share, on: this.today, by: 'set-off' });
    }
    setOff.answer = word;
    return undefined;
  }

  // ---- corrections of a load's weight

  proposeCorrection(by: Side, load: ModelLoad, net: bigint): Told {
    if (this.corrections.some((other) => other.load === load && other.answer === undefined)) {
      return 'correction-open';
    }
    if (load.total === undefined) return 'not-ready';
    if (load.net === net) return 'bad-input';
    const correction: ModelCorrection = { load, net, by, id: '', answer: undefined };
    this.corrections.push(correction);
    if (!load.brought) return undefined;
    const { total, deducted, on: of } = load.brought;
    const then = worth(net, load.dry ?? 0n);
    // What the note would take off, deductions and all.
    const lower = total - deducted - (then - this.deducted(net, then));
    const amount = least(lower, this.due(of));
    if (amount > 0n) this.place({ of, ticket: load.ticket, amount, by, correction });
    return undefined;
  }

  answerCorrection(side: Side, correction: ModelCorrection, word: string, reason: string): Told {
    if (correction.answer !== undefined) return 'correction-over';
    if ((word === 'withdrawn') !== (correction.by === side)) return 'not-yours';
    if (word === 'refused' && reason === '') return 'bad-input';
    correction.answer = word;
    for (const hold of this.holds) {
      if (hold.correction === correction) hold.endedOn = this.today;
    }
    if (word !== 'confirmed') return undefined;
    const { load, net } = correction;
    const total = worth(net, load.dry ?? 0n);
    load.net = net;
    load.total = total;
    load.settledOn = this.today;
    load.version++;
    if (!load.brought) return undefined;
    const deducted = this.deducted(net, total);
    const [goods, less] = [total - load.brought.total, deducted - load.brought.deducted];
    if (goods === 0n && less === 0n) return undefined;
    const note = this.note(load.brought.on, new Map([[load.ticket, goods - less]]));
    // The next note corrects a debit note, which brought feed as an invoice does; a credit note brought none.
    const on = note.kind === 'credit-note' ? load.brought.on : note;
    load.brought = { total, deducted, on };
    return undefined;
  }

  // ---- liens

  recordLien(lender: string, receivedOn: string, isConfirmed: boolean): Told {
    if (receivedOn > this.today) return 'bad-input';
    if (!isConfirmed && this.liens.some((lien) => lien.lender === lender && !lien.isOver)) return 'unusual';
    this.liens.push({ lender, receivedOn, id: '', isOver: false });
    return undefined;
  }

  endLien(side: Side, lien: ModelLien, on: string): Told {
    if (side !== 'buyer') return 'not-yours';
    if (lien.isOver) return 'ended-already';
    if (on < lien.receivedOn || on > this.today) return 'bad-input';
    lien.isOver = true;
    return undefined;
  }

  // ---- what counts

  private active(): Taken[] {
    return this.taken.filter(({ payment }) => !payment || counts(payment));
  }

  private takenOf(document: ModelDocument): Taken[] {
    return this.active().filter(({ of }) => of === document);
  }

  liveHolds(document: ModelDocument): ModelHold[] {
    return this.holds.filter(({ of, endedOn }) => of === document && endedOn === undefined);
  }
}

function counts({ answer, isBack }: ModelPayment): boolean {
  return answer === 'confirmed' && !isBack;
}

/** 200.00 a short ton of 2,000 lb of dry matter. */
function worth(net: bigint, dry: bigint): bigint {
  return halfUp(net * dry, 100n);
}

function halfUp(over: bigint, under: bigint): bigint {
  if (over < 0n) return -halfUp(-over, under);
  return (2n * over + under) / (2n * under);
}

function sumOf<Item>(items: readonly Item[], amount: (item: Item) => bigint): bigint {
  let sum = 0n;
  for (const item of items) sum += amount(item);
  return sum;
}

function least(a: bigint, b: bigint): bigint {
  if (a < b) return a;
  return b;
}

/** The date so many days later. */
export function plusDays(day: string, days: number): string {
  return new Date(Date.parse(`${day}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
}

function sundayOf(day: string): string {
  return plusDays(day, (7 - new Date(`${day}T00:00:00Z`).getUTCDay()) % 7);
}
