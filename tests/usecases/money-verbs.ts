/**
 * Draws one verb about money at random: what is asked of the product, and the same asked of the model.
 */
import { v7 } from 'uuid';
import type { Context } from '../../src/usecases/context.ts';
import { answerCorrection, proposeCorrection } from '../../src/usecases/corrections/agree-correction.ts';
import { voidLoad } from '../../src/usecases/loads/correct-load.ts';
import { recordLoads } from '../../src/usecases/loads/record-loads.ts';
import { answerSetOff, proposeSetOff } from '../../src/usecases/money/agree-set-off.ts';
import { answerPayment } from '../../src/usecases/money/answer-payment.ts';
import { chargeInterest } from '../../src/usecases/money/charge-interest.ts';
import { giveAdvances } from '../../src/usecases/money/give-advances.ts';
import { holdAmount, releaseHold } from '../../src/usecases/money/hold-amount.ts';
import { issueInvoices } from '../../src/usecases/money/issue-invoices.ts';
import { endLien, recordLien } from '../../src/usecases/money/keep-liens.ts';
import { recordPayment } from '../../src/usecases/money/record-payment.ts';
import { reversePayment } from '../../src/usecases/money/reverse-payment.ts';
import { recordResults } from '../../src/usecases/results/record-results.ts';
import { settleLoads } from '../../src/usecases/settlements/settle-loads.ts';
import type { Chance } from '../oracle/random.ts';
import {
  type ModelDocument,
  type ModelLoad,
  type MoneyModel,
  type Part,
  plusDays,
  type Side,
  type Told,
} from './money-model.ts';

export interface Verb {
  readonly name: string;
  readonly run: (context: Context, key: string) => Promise<unknown>;
  /** Asks the model, once the product has answered. */
  readonly expect: (side: Side) => Told;
  /** Whose it is, where that follows from what it is about. */
  readonly whose?: () => Side | undefined;
  /** Notes the ids that the product gave. */
  readonly keep?: (answer: never) => void;
}

interface Drawing {
  readonly chance: Chance;
  readonly model: MoneyModel;
  readonly agreementId: string;
  /** Moves the clock of both sides to a day. */
  readonly goTo: (day: string) => void;
}

/** Likelier ones stand twice and more. */
const VERBS = [
  ...['deliver', 'deliver', 'report', 'settle', 'issue', 'issue', 'advance', 'interest', 'days', 'days'],
  ...['pay', 'pay', 'pay', 'pay', 'answer', 'answer', 'answer', 'reverse', 'hold', 'hold', 'release'],
  ...['setOff', 'setOff', 'setOff', 'answerSetOff', 'answerSetOff', 'correct', 'correct'],
  ...['answerCorrection', 'answerCorrection', 'lien', 'endLien', 'void'],
] as const;

export const VERB_NAMES = [...new Set<string>(VERBS)];

/** What comes first, so that there is money to speak of. */
const OPENING = ['deliver', 'deliver', 'deliver', 'report', 'report', 'settle', 'issue'] as const;

/** Seldom a verb that has nothing to be about; `place` counts from 1. */
export function drawVerb(drawing: Drawing, place: number): Verb & { readonly side: Side } {
  const { chance } = drawing;
  let name = OPENING[place - 1] ?? chance.pick(VERBS);
  while (place > OPENING.length && !hasSubject(drawing, name) && chance.happens(0.95))
    name = chance.pick(VERBS);
  const drawn = DRAWN[name](drawing);
  const side = drawn.whose?.() ?? sideOf(drawing, name);
  const isAnybody = place > OPENING.length && chance.happens(0.15);
  return { name, ...drawn, side: isAnybody || !side ? chance.pick(['seller', 'buyer']) : side };
}

type Name = (typeof VERBS)[number];

function hasSubject({ chance, model }: Drawing, name: Name): boolean {
  switch (name) {
    case 'report':
      return model.loads.some(({ dry, isVoid }) => dry === undefined && !isVoid);
    case 'settle':
      return model.loads.some(({ dry, total }) => dry !== undefined && total === undefined);
    case 'void':
      return chance.happens(0.3) && model.loads.some(({ total }) => total === undefined);
    case 'answer':
      return model.payments.some(({ answer }) => answer === undefined);
    case 'reverse':
      return model.payments.some(({ answer, isBack }) => answer === 'confirmed' && !isBack);
    case 'pay':
    case 'hold':
      return model.documents.some((document) => model.due(document) > 0n);
    case 'release':
      return model.holds.some(({ endedOn }) => endedOn === undefined);
    case 'setOff':
      return model.onAccount() > 0n;
    case 'answerSetOff':
      return model.setOffs.some(({ answer }) => answer === undefined);
    case 'correct':
      return model.loads.some(({ total }) => total !== undefined);
    case 'answerCorrection':
      return model.corrections.some(({ answer }) => answer === undefined);
    case 'endLien':
      return model.liens.some(({ isOver }) => !isOver);
    default:
      return true;
  }
}

/** Whose a verb is; undefined where it is either's. */
function sideOf({ model }: Drawing, name: Name): Side | undefined {
  if (['issue', 'advance', 'interest'].includes(name)) return model.terms.issuedBy;
  if (['hold', 'release', 'endLien'].includes(name)) return 'buyer';
  return undefined;
}

const otherThan = (side: Side): Side => (side === 'seller' ? 'buyer' : 'seller');

type Drawn = Omit<Verb, 'name'>;

const dollars = (cents: bigint): string => {
  const digits = String(cents < 0n ? -cents : cents).padStart(3, '0');
  return `${cents < 0n ? '-' : ''}${digits.slice(0, -2)}.${digits.slice(-2)}`;
};

function ticketRow({ ticket, day }: ModelLoad, net: bigint) {
  return {
    ...{ ticket, delivered_at: `${day}T09:00:00-07:00`, gross: String(30_000n + net), tare: '30000' },
    ...{ unit: 'lb', sample: `S-${ticket}` },
  };
}

/** One of those, or undefined where there are none. */
function some<Item>({ chance }: Drawing, items: readonly Item[]): Item | undefined {
  return items.length === 0 ? undefined : chance.pick(items);
}

const reason = ({ chance }: Drawing) => (chance.happens(0.9) ? 'As we see it' : '');
const nothing = (drawing: Drawing): Drawn => DRAWN.days(drawing);

const DRAWN: Readonly<Record<(typeof VERBS)[number], (drawing: Drawing) => Drawn>> = {
  deliver: ({ chance, model, agreementId }) => {
    const day = plusDays(model.today, -chance.integer(0, 3));
    const net = BigInt(chance.integer(40, 300)) * 100n;
    const load = { ticket: `T${model.loads.length + 1}`, day } as ModelLoad;
    return {
      run: (context, key) =>
        recordLoads(context, { agreementId, loads: [ticketRow(load, net)], confirmed: true, key }),
      expect: () => {
        model.deliver(load.ticket, net, day);
        return undefined;
      },
      keep: ([{ id }]: [{ id: string }]) => {
        const last = model.loads.at(-1);
        if (last) last.id = id;
      },
    };
  },
  report: (drawing) => {
    const { chance, model, agreementId } = drawing;
    const load = some(
      drawing,
      model.loads.filter(({ dry, isVoid }) => dry === undefined && !isVoid),
    );
    if (!load) return DRAWN.deliver(drawing);
    const dry = chance.integer(400, 650);
    const row = { sample: `S-${load.ticket}`, basis: 'dry-matter', dry_matter: (dry / 10).toFixed(1) };
    return {
      run: (context, key) => recordResults(context, { agreementId, results: [row], confirmed: true, key }),
      expect: () => {
        load.dry = BigInt(dry);
        return undefined;
      },
    };
  },
  settle: ({ model, agreementId }) => ({
    run: (context, key) => settleLoads(context, { agreementId, key }),
    expect: () => {
      model.settle();
      return undefined;
    },
  }),
  void: (drawing) => {
    const { chance, model } = drawing;
    const waiting = model.loads.filter(({ total }) => total === undefined);
    const load = some(drawing, chance.happens(0.8) ? waiting : model.loads);
    if (!load) return nothing(drawing);
    const asked = { loadId: load.id, reason: 'Weighed twice', baseVersion: load.version };
    return {
      run: (context, key) => voidLoad(context, { ...asked, key }),
      expect: () => model.voidLoad(load),
    };
  },
  issue: ({ chance, model, agreementId }) => {
    const includeOpenPeriods = chance.happens(0.7);
    return {
      run: (context, key) => issueInvoices(context, { agreementId, includeOpenPeriods, key }),
      expect: (side) => model.issue(side, includeOpenPeriods),
    };
  },
  advance: ({ model, agreementId }) => ({
    run: (context, key) => giveAdvances(context, { agreementId, key }),
    expect: (side) => model.giveAdvances(side),
  }),
  interest: ({ chance, model, agreementId }) => {
    const through = plusDays(model.today, chance.pick([0, 0, 0, -1, -5, 1]));
    return {
      run: (context, key) => chargeInterest(context, { agreementId, through, key }),
      expect: (side) => model.chargeInterest(side, through),
    };
  },
  days: ({ chance, model, goTo }) => {
    const day = plusDays(model.today, chance.integer(1, 9));
    return {
      run: async () => goTo(day),
      expect: () => {
        model.today = day;
        return undefined;
      },
    };
  },
  pay: (drawing) => {
    const { chance, model, agreementId } = drawing;
    const spread = chance.pick(['oldest-first', 'oldest-first', 'in-proportion', 'as-said'] as const);
    const parts = spread === 'as-said' ? drawParts(drawing) : [];
    const named = parts.reduce((sum, { amount }) => sum + amount, 0n);
    const amount = spread === 'as-said' && chance.happens(0.9) ? named : drawAmount(drawing);
    const asked = {
      ...{ direction: chance.pick(['paid', 'paid', 'received'] as const), amount, spread, parts },
      paidOn: drawPaidOn(drawing),
      reference: chance.happens(0.5) ? String(chance.integer(1, 9)) : null,
      ...{ isJoint: chance.happens(0.75), pastLien: chance.happens(0.7), isConfirmed: chance.happens(0.75) },
    };
    const payment = {
      ...{ amount: dollars(amount), paid_on: asked.paidOn, method: 'check', spread },
      ...{ reference: asked.reference ?? '', made_out_to: asked.isJoint ? 'jointly' : 'seller' },
      past_lien: asked.pastLien ? 'Released by telephone' : '',
    };
    const { direction, isConfirmed: confirmed } = asked;
    return {
      run: (context, key) =>
        recordPayment(context, { agreementId, direction, payment, parts: partsGiven(parts), confirmed, key }),
      whose: () => (direction === 'paid' ? 'buyer' : 'seller'),
      expect: (side) => model.pay(side, asked),
      keep: ({ paymentId }: { paymentId: string }) => {
        const last = model.payments.at(-1);
        if (last) last.id = paymentId;
      },
    };
  },
  answer: (drawing) => {
    const { chance, model } = drawing;
    const open = model.payments.filter((payment) => payment.answer === undefined);
    const payment = some(drawing, chance.happens(0.85) ? open : model.payments);
    const [word, why] = [
      chance.pick(['confirmed', 'confirmed', 'confirmed', 'contested', 'withdrawn'] as const),
      reason(drawing),
    ];
    return {
      run: (context, key) =>
        answerPayment(context, { paymentId: payment?.id ?? v7(), answer: word, reason: why, key }),
      whose: () => payment && (word === 'withdrawn' ? payment.by : otherThan(payment.payer)),
      expect: (side) => (payment ? model.answer(side, payment, word, why) : 'not-found'),
    };
  },
  reverse: (drawing) => {
    const { chance, model } = drawing;
    const counted = model.payments.filter(({ answer, isBack }) => answer === 'confirmed' && !isBack);
    const payment = some(drawing, chance.happens(0.8) ? counted : model.payments);
    const [on, why] = [plusDays(model.today, chance.pick([0, 0, 0, -1, 1])), reason(drawing)];
    return {
      run: (context, key) =>
        reversePayment(context, { paymentId: payment?.id ?? v7(), reversedOn: on, reason: why, key }),
      whose: () => payment && otherThan(payment.payer),
      expect: (side) => (payment ? model.reverse(side, payment, on, why) : 'not-found'),
    };
  },
  hold: (drawing) => {
    const { chance, model } = drawing;
    const due = model.documents.filter((document) => model.due(document) > 0n);
    const of = some(drawing, chance.happens(0.85) ? due : model.documents);
    const ticket = of && chance.happens(0.6) ? some(drawing, [...of.loads.keys(), 'T1']) : undefined;
    const whole = of ? ((ticket === undefined ? of.payable : of.loads.get(ticket)) ?? 0n) : 0n;
    const figure = chance.happens(0.1) ? whole : whole - BigInt(chance.integer(1, 30_000));
    const loadId = model.loads.find((load) => load.ticket === ticket)?.id;
    const asked = { ticket, figure, reason: reason(drawing) };
    return {
      run: (context, key) =>
        holdAmount(context, {
          ...{ documentId: of?.id ?? v7(), figure: dollars(figure), reason: asked.reason, key },
          ...(loadId === undefined ? {} : { loadId }),
        }),
      expect: (side) => (of ? model.hold(side, of, asked) : 'not-found'),
    };
  },
  release: (drawing) => {
    const { chance, model } = drawing;
    const live = model.holds.filter(({ endedOn }) => endedOn === undefined);
    const hold = some(drawing, chance.happens(0.8) ? live : model.holds);
    return {
      run: (context, key) => releaseHold(context, { holdId: hold?.id ?? v7(), key }),
      expect: (side) => (hold ? model.release(side, hold) : 'not-found'),
    };
  },
  setOff: (drawing) => {
    const { chance, model, agreementId } = drawing;
    const spread = chance.pick(['oldest-first', 'in-proportion', 'as-said'] as const);
    const parts = spread === 'as-said' ? drawParts(drawing) : [];
    const most = model.onAccount();
    const whole = most > 0n && chance.happens(0.7) ? most : drawAmount(drawing);
    const amount = chance.happens(0.3) ? whole / 2n : whole;
    const asked = { amount, spread, parts };
    return {
      run: (context, key) =>
        proposeSetOff(context, {
          ...{ agreementId, amount: dollars(amount), spread, parts: partsGiven(parts), reason: 'x', key },
        }),
      expect: (side) => model.proposeSetOff(side, asked),
      keep: ({ setOffId }: { setOffId: string }) => {
        const last = model.setOffs.at(-1);
        if (last) last.id = setOffId;
      },
    };
  },
  answerSetOff: (drawing) => {
    const { chance, model } = drawing;
    const open = model.setOffs.filter(({ answer }) => answer === undefined);
    const setOff = some(drawing, chance.happens(0.85) ? open : model.setOffs);
    const [answer, why] = [
      chance.pick(['confirmed', 'confirmed', 'refused', 'withdrawn'] as const),
      reason(drawing),
    ];
    return {
      run: (context, key) =>
        answerSetOff(context, { setOffId: setOff?.id ?? v7(), answer, reason: why, key }),
      whose: () => setOff && (answer === 'withdrawn' ? setOff.by : otherThan(setOff.by)),
      expect: (side) => (setOff ? model.answerSetOff(side, setOff, answer, why) : 'not-found'),
    };
  },
  correct: (drawing) => {
    const { chance, model, agreementId } = drawing;
    const settled = model.loads.filter(({ total }) => total !== undefined);
    const load = some(drawing, chance.happens(0.9) ? settled : model.loads);
    if (!load) return nothing(drawing);
    const net = chance.happens(0.05)
      ? load.net
      : load.net + BigInt(chance.pick([-9, -4, -2, -1, 1, 3])) * 100n;
    const figures = ticketRow(load, net);
    const asked = { agreementId, subject: 'load', subjectId: load.id, figures, reason: 'Misread' } as const;
    return {
      run: (context, key) => proposeCorrection(context, { ...asked, confirmed: true, key }),
      expect: (side) => model.proposeCorrection(side, load, net),
      keep: ({ correctionId }: { correctionId: string }) => {
        const last = model.corrections.at(-1);
        if (last) last.id = correctionId;
      },
    };
  },
  answerCorrection: (drawing) => {
    const { chance, model } = drawing;
    const open = model.corrections.filter(({ answer }) => answer === undefined);
    const correction = some(drawing, chance.happens(0.9) ? open : model.corrections);
    const [answer, why] = [
      chance.pick(['confirmed', 'confirmed', 'confirmed', 'refused', 'withdrawn'] as const),
      reason(drawing),
    ];
    return {
      run: (context, key) =>
        answerCorrection(context, { correctionId: correction?.id ?? v7(), answer, reason: why, key }),
      whose: () => correction && (answer === 'withdrawn' ? correction.by : otherThan(correction.by)),
      expect: (side) => (correction ? model.answerCorrection(side, correction, answer, why) : 'not-found'),
    };
  },
  lien: ({ chance, model, agreementId }) => {
    const lender = chance.pick(['Fallow Creek Credit', 'Second Fallow Credit']);
    const day = plusDays(model.today, chance.pick([0, -3, 1]));
    const isConfirmed = chance.happens(0.5);
    const notice = {
      ...{ lender, debtor: 'Quillback Acres', crop_year: '2026', county: 'Larkspur' },
      ...{ conditions: 'Checks to both', received_on: day },
    };
    return {
      run: (context, key) => recordLien(context, { agreementId, notice, confirmed: isConfirmed, key }),
      expect: () => model.recordLien(lender, day, isConfirmed),
      keep: ({ lienId }: { lienId: string }) => {
        const last = model.liens.at(-1);
        if (last) last.id = lienId;
      },
    };
  },
  endLien: (drawing) => {
    const { chance, model } = drawing;
    const live = model.liens.filter(({ isOver }) => !isOver);
    const lien = some(drawing, chance.happens(0.9) ? live : model.liens);
    const day = plusDays(model.today, chance.pick([0, 0, -1, 1]));
    return {
      run: (context, key) =>
        endLien(context, { lienId: lien?.id ?? v7(), endedOn: day, reason: 'Its release', key }),
      expect: (side) => (lien ? model.endLien(side, lien, day) : 'not-found'),
    };
  },
};

/** Mostly today; often the last day of a discount, or the day after. */
function drawPaidOn({ chance, model }: Drawing): string {
  const { discount } = model.terms;
  const invoices = model.documents.filter(({ kind }) => kind === 'invoice');
  if (discount && invoices.length > 0 && chance.happens(0.4)) {
    const last = plusDays(chance.pick(invoices).issuedOn, discount.withinDays + chance.integer(0, 1));
    if (last <= model.today) return last;
  }
  return plusDays(model.today, chance.pick([0, 0, 0, 0, -2, -6, -1, 1]));
}

/** Around what is due and what is on account, to the cent and beside it. */
function drawAmount({ chance, model }: Drawing): bigint {
  const due = model.documents.map((document) => model.due(document)).filter((amount) => amount > 0n);
  const all = due.reduce((sum, amount) => sum + amount, 0n);
  const one = due.length === 0 ? 0n : chance.pick(due);
  const onAccount = model.onAccount();
  return chance.pick([
    ...[
      one,
      one,
      all,
      all,
      (one * 98n) / 100n,
      (one * 98n) / 100n + 1n,
      (all * 98n) / 100n,
      all / 3n,
      one / 2n,
    ],
    ...[
      all + 1234n,
      all + 50_000n,
      one + 5_000n,
      onAccount,
      onAccount / 2n,
      onAccount + 1n,
      BigInt(chance.integer(1, 500)),
      0n,
    ],
  ]);
}

/** Of one document or several; at times one twice, or more than is due. */
function drawParts({ chance, model }: Drawing): readonly Part[] {
  const due = chance.shuffled(model.documents.filter((document) => model.due(document) > 0n));
  const chosen: readonly ModelDocument[] = due.slice(0, chance.integer(1, 3));
  const parts = chosen.map((of) => {
    const most = model.due(of);
    return { of, amount: chance.pick([most, most, most / 2n, (most * 98n) / 100n, most + 1n]) };
  });
  const [first] = parts;
  return first && chance.happens(0.1) ? [...parts, { ...first, amount: 1n }] : parts;
}

function partsGiven(parts: readonly Part[]) {
  return parts.map(({ of, amount }) => ({ documentId: of.id, amount: dollars(amount) }));
}
