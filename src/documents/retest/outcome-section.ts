/**
 * What came of the question, or what it waits for; and the money: the loads, who bears the tests, what is held, and the
 * notes and fees that followed.
 */
import { documentName } from '../../domain/money/money-document.ts';
import type { Side } from '../../domain/retests/costs.ts';
import type { RetestRecord } from '../../domain/retests/retest-record.ts';
import { prose, sectionHeading } from '../agreement/prose.ts';
import { lessThat, signOf, sumOf } from '../amount-strings.ts';
import type { Piece } from '../pdf/flow.ts';
import { type Row, tablePieces } from '../pdf/table.ts';
import { amountText, type RetestSetting, type RetestWords, SIDES, tableSpace } from './retest-setting.ts';
import {
  changeSentence,
  costSentence,
  endingSentence,
  heldSentence,
  openSentences,
  totalOf,
} from './retest-words.ts';

/** What counts, or what is called for. */
export function outcomePieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  const { ending } = record;
  return [
    ...sectionHeading(ending ? 'The outcome' : 'What it waits for', sheet),
    ...(ending
      ? prose(`${ending.on}: ${endingSentence(ending, setting)}`, { ...sheet, body: sheet.strong })
      : openSentences(setting).flatMap((sentence) => prose(sentence, sheet))),
  ];
}

/** "80.00 less", of what the buyer owes. */
function changeText(before: string | null, now: string | null, words: RetestWords): string {
  if (before === null || now === null) return '';
  const change = lessThat(now, before);
  const sign = signOf(change);
  return sign === 0 ? 'the same' : `${amountText(change, words)} ${sign < 0 ? 'less' : 'more'}`;
}

function loadPieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  const shown = (amount: string | null) => (amount === null ? 'not priced' : setting.figures.show(amount));
  const [before, now] = [totalOf(record, 'before') ?? null, totalOf(record, 'now') ?? null];
  const total: Row = {
    cells: [
      `All ${record.loads.length} loads`,
      '',
      before === null ? '' : shown(before),
      now === null ? '' : shown(now),
      changeText(before, now, setting),
    ],
  };
  return tablePieces({
    columns: [
      { head: 'Load', align: 'left', width: 'fill' },
      { head: 'Delivered', align: 'left', width: 96 },
      { head: `Before the question, ${record.currency}`, align: 'decimal', width: 84 },
      { head: `${record.ending ? 'After' : 'Now'}, ${record.currency}`, align: 'decimal', width: 84 },
      { head: `Change, ${record.currency}`, align: 'right', width: 84 },
    ],
    rows: record.loads.map((load) => ({
      cells: [
        load.ticket,
        load.deliveredOn,
        shown(load.before),
        shown(load.now),
        changeText(load.before, load.now, setting),
      ],
    })),
    totals: record.loads.length > 1 ? [total] : [],
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 13,
    continued: 'Load (continued)',
  });
}

/** What a side has paid for tests that were neither contested nor taken back. */
function paidBy(side: Side, { figures }: RetestRecord): string {
  return sumOf(
    figures.flatMap((figure) =>
      figure.paidBy === side && figure.standing !== 'contested' && figure.standing !== 'taken-back'
        ? [figure.charge]
        : [],
    ),
  );
}

/** Who bears what of the tests beside what each paid for them. */
function bornePieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  const { ending } = record;
  if (!ending || (signOf(ending.sellerBears) === 0 && signOf(ending.buyerBears) === 0)) return [];
  const bears = { seller: ending.sellerBears, buyer: ending.buyerBears };
  return tablePieces({
    columns: [
      { head: 'Costs of the tests', align: 'left', width: 'fill' },
      { head: `Paid, ${record.currency}`, align: 'decimal', width: 84 },
      { head: `Bears, ${record.currency}`, align: 'decimal', width: 84 },
    ],
    rows: SIDES.map((side) => ({
      cells: [record[side], amountText(paidBy(side, record), setting), amountText(bears[side], setting)],
    })),
    totals: [],
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 13,
  });
}

function documentPieces(setting: RetestSetting): Piece[] {
  const { record, sheet } = setting;
  if (!record.ending) return [];
  if (record.documents.length === 0) return prose('No note or invoice followed from it.', sheet);
  const { buyer } = record;
  return tablePieces({
    columns: [
      { head: 'What followed', align: 'left', width: 'fit' },
      { head: 'Issued', align: 'left', width: 'fit' },
      { head: 'What it does', align: 'left', width: 'fill' },
      { head: `Amount, ${record.currency}`, align: 'decimal', width: 'fit' },
    ],
    rows: record.documents.map((document) => ({
      cells: [
        documentName(document),
        document.issuedOn,
        signOf(document.payable) < 0 ? `${buyer} owes so much less` : `${buyer} owes so much more`,
        amountText(document.payable, setting),
      ],
    })),
    totals: [],
    space: tableSpace(setting),
    style: sheet.table,
    gapBefore: 13,
  });
}

/** A group of pieces for each part of the money. */
export function moneyPieces(setting: RetestSetting): Piece[][] {
  const { record, sheet } = setting;
  const { ending } = record;
  const held = heldSentence(setting);
  const sentences = [
    ...(ending ? [changeSentence(ending, setting), costSentence(ending, setting)] : []),
    held ?? 'Nothing is held of invoices for this question.',
  ];
  return [
    [
      ...sectionHeading('The money', sheet),
      ...sentences.flatMap((sentence, index) => prose(sentence, sheet, index === 0)),
    ],
    bornePieces(setting),
    documentPieces(setting),
    loadPieces(setting),
  ].filter((group) => group.length > 0);
}
