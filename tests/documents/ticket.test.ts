/**
 * A scale ticket's paper, read back with pdftotext: what weighmaster statutes ask of it (WA RCW 15.80.530, ID 71-411,
 * SC Reg. 5-494, IA 203.17, VT 9 V.S.A. 2742; read), entries that nobody made, and what makes it doubtful or void.
 */
import { PDFDocument } from 'pdf-lib';
import { describe, expect, test } from 'vitest';
import { renderTicket } from '../../src/documents/ticket/render-ticket.ts';
import type { TicketPaper, TicketScale } from '../../src/documents/ticket/ticket-paper.ts';
import { fonts } from './font-bytes.ts';
import { hasPdftotext, pageTexts, withoutPdftotext } from './pdf-text.ts';

const SCALE: TicketScale = {
  name: 'Yard scale',
  owner: 'Quillback Acres',
  place: 'North gate, Quillback Acres',
  range: '120,000 lb by 20 lb',
  accuracyClass: 'III L',
  isLegalForTrade: true,
  certificate: 'C-118',
  test: ['2026-09-14: Tested on 2026-03-02; the next test is due by 2027-03-02.'],
  isDoubtful: false,
};
const FULL: TicketPaper = {
  ticket: 'T-000417',
  agreement: 'A-26-014',
  seller: 'Quillback Acres',
  buyer: 'Tarn Hollow Dairy',
  feed: 'whole-ear corn (the ground ear: grain, cob and husk; also called snaplage)',
  date: '2026-09-14',
  timeZone: 'America/Boise',
  gross: { weight: '78,220 lb', at: '2026-09-14 21:40', scale: 'Yard scale' },
  tare: { weight: '31,100 lb', at: '2026-09-14 22:05', scale: 'Yard scale' },
  net: '47,120 lb',
  apart: [],
  truck: 'Red 4',
  plate: 'QA 4 417',
  weigher: 'Ada Marl',
  haul: '11.3 miles',
  sample: 'S417',
  moisture: '41.2 %',
  scales: [SCALE],
  version: '1',
  corrections: [],
  voidReason: undefined,
  entry: { sequence: '31', fingerprint: 'ab'.repeat(32) },
};
const BARE: TicketPaper = {
  ...FULL,
  gross: { ...FULL.gross, scale: undefined },
  tare: { ...FULL.tare, scale: undefined },
  ...{ truck: undefined, plate: undefined, weigher: undefined, haul: undefined },
  ...{ sample: undefined, moisture: undefined, scales: [] },
};
const setting = { fonts, language: 'en-US', paper: 'letter', createdOn: '2026-09-15T04:06:00Z' } as const;

async function printed(paper: TicketPaper, size: 'letter' | 'a4' = 'letter') {
  const outcome = await renderTicket({ ...paper, ...setting, paper: size });
  if (!outcome.ok) throw new Error(outcome.problems.map(({ message }) => message).join('\n'));
  return outcome;
}

/** The words of the paper in one line, label and value side by side as they are read across. */
async function read(paper: TicketPaper): Promise<string> {
  return pageTexts((await printed(paper)).bytes)
    .join(' ')
    .replace(/\s+/g, ' ');
}

const withPoppler = test.skipIf(!hasPdftotext);

describe('a ticket', () => {
  withPoppler(`says all that is asked of one, on one page (skipped where ${withoutPdftotext})`, async () => {
    const text = await read(FULL);
    for (const asked of [
      'Scale ticket T-000417',
      '2026-09-14',
      'whole-ear corn (the ground ear: grain, cob and husk',
      'Quillback Acres',
      'Tarn Hollow Dairy',
      'Gross 78,220 lb',
      'Tare 31,100 lb',
      'Net 47,120 lb',
      'Red 4',
      'QA 4 417',
      'North gate, Quillback Acres',
      'Ada Marl',
      'Weigher’s signature',
      '120,000 lb by 20 lb',
      'III L, legal for trade',
      'C-118',
      'entry 31 of its journal',
      'ab'.repeat(32),
      'page 1 of 1',
    ])
      expect(text).toContain(asked);
    expect(text).not.toContain('not used');
    expect(text).not.toContain('Void');
  });

  withPoppler('strikes out what nobody entered', async () => {
    const text = await read(BARE);
    // Vehicle, plate, haul, sample, moisture, scale and place, test and certificate, weigher.
    expect(text.split('not used')).toHaveLength(9);
    expect(text.split('scale not named')).toHaveLength(3);
  });

  withPoppler('says what was put right, and why', async () => {
    const corrections = [
      {
        ...{ version: '2', at: '2026-09-15 07:12', reason: 'Read the gross wrong', isVoid: false },
        changes: ['Gross: 78,220 lb, was 78,320 lb'],
      },
    ];
    const text = await read({ ...FULL, version: '2', corrections });
    expect(text).toContain('Version 2: this ticket was put right');
    expect(text).toContain('Version 2, 2026-09-15 07:12: Read the gross wrong');
    expect(text).toContain('Gross: 78,220 lb, was 78,320 lb');
    expect(text).toContain('of agreement A-26-014, version 2');
  });

  withPoppler('that is void says so at the head, across the page and at its foot', async () => {
    const text = await read({ ...FULL, voidReason: 'Weighed twice.' });
    expect(text).toContain('Void scale ticket T-000417');
    expect(text).toContain('Void: Weighed twice. Nothing was delivered by this ticket');
    expect(text).toContain('VOID');
    expect(text).toContain('version 1, void;');
  });

  withPoppler('names both scales and days where they differ', async () => {
    const other = { ...SCALE, name: 'Pit scale', isDoubtful: true, test: ['2026-09-15: overdue.'] };
    const apart = ['Gross and tare were weighed on different scales: Yard scale and Pit scale.'];
    const text = await read({ ...FULL, scales: [SCALE, other], apart });
    expect(text).toContain(apart[0]);
    expect(text).toContain('Pit scale, of Quillback Acres');
    expect(text).toContain('2026-09-15: overdue.');
  });

  test('is the same, byte for byte, each time, and has its title, date and paper', async () => {
    const { bytes, pages } = await printed(FULL, 'a4');
    expect(Buffer.from((await printed(FULL, 'a4')).bytes).equals(Buffer.from(bytes))).toBe(true);
    expect(pages).toBe(1);
    const document = await PDFDocument.load(bytes, { updateMetadata: false });
    expect(document.getTitle()).toBe('Scale ticket T-000417: Quillback Acres to Tarn Hollow Dairy');
    expect(document.getCreationDate()?.toISOString()).toBe('2026-09-15T04:06:00.000Z');
    expect(document.getPage(0).getSize()).toEqual({ width: 595.28, height: 841.89 });
  });

  test('with a character that cannot be printed is not printed', async () => {
    const outcome = await renderTicket({ ...FULL, ...setting, weigher: 'Ada \u{1F33D}' });
    expect(outcome).toMatchObject({ ok: false, problems: [{ place: 'weigher' }] });
  });
});
