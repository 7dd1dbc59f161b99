/**
 * Who signed, as what, and when: in the agreement's own time zone and in UTC. A side that has not signed has a line
 * left blank, and says so.
 */
import { parseInstant, whenText, zoneCalendar } from '../../domain/dates/instant.ts';
import { factGridPieces } from '../pdf/fact-grid.ts';
import type { Piece } from '../pdf/flow.ts';
import type { Sheet } from '../pdf/sheet.ts';
import { type AgreementPaper, type PaperSignature, SIDES, type Side } from './agreement-paper.ts';
import { prose, sectionHeading } from './prose.ts';

const SIDE_NAMES: Readonly<Record<Side, string>> = { seller: 'Seller', buyer: 'Buyer' };

/** "2026-08-14 15:04:27 UTC", and the same moment on the zone's wall clock. Throws RangeError on another time. */
function momentOf(signedAt: string, timeZone: string): { utc: string; local: string } {
  const read = parseInstant(signedAt);
  if ('wrong' in read) throw new RangeError(`signedAt must be ${read.wrong}; found ${signedAt}`);
  return {
    utc: `${whenText(read.instant).slice(0, 19).replace('T', ' ')} UTC`,
    local: zoneCalendar(timeZone).wallClockAt(read.instant),
  };
}

function signedPieces(signature: PaperSignature, timeZone: string, sheet: Sheet): Piece[] {
  const { utc, local } = momentOf(signature.signedAt, timeZone);
  return factGridPieces({
    facts: [
      { label: SIDE_NAMES[signature.side], value: signature.party },
      { label: 'Signed by, as typed', value: signature.name },
      { label: `Signed at, ${timeZone}`, value: local },
      { label: 'The same moment in UTC', value: utc },
    ],
    columns: 4,
    left: sheet.left,
    width: sheet.width,
    label: sheet.label,
    value: sheet.strong,
    gapBefore: 6,
    keepWithNext: true,
  });
}

function blankLine(sheet: Sheet): Piece {
  const half = sheet.left + sheet.width * 0.62;
  return {
    height: 40,
    keepWithNext: true,
    draw: (ink, top) => {
      ink.lines(
        [
          [sheet.left, top + 28, half, top + 28],
          [half + 14, top + 28, sheet.right, top + 28],
        ],
        sheet.rule,
      );
      ink.text('Name and signature', sheet.left, top + 37, sheet.label);
      ink.text('Date and time', half + 14, top + 37, sheet.label);
    },
  };
}

function unsignedPieces(side: Side, { agreement, version }: AgreementPaper, sheet: Sheet): Piece[] {
  const named = factGridPieces({
    facts: [
      { label: SIDE_NAMES[side], value: agreement[side] },
      // A copy from a file may be signed by hand, and would then contradict itself.
      ...(version === undefined ? [] : [{ label: 'Signature', value: 'not signed yet' }]),
    ],
    columns: 2,
    left: sheet.left,
    width: sheet.width,
    label: sheet.label,
    value: sheet.strong,
    gapBefore: 6,
    keepWithNext: true,
  });
  return [...named, blankLine(sheet)];
}

function hairlinePiece(sheet: Sheet): Piece {
  return {
    height: 1,
    gapBefore: 5,
    keepWithNext: true,
    draw: (ink, top) => ink.lines([[sheet.left, top, sheet.right, top]], sheet.hairline),
  };
}

/** What the signing was: said once, above the names. */
function explanation({ signatures, version }: AgreementPaper): string {
  if (version === undefined && signatures.length === 0)
    return 'This copy was printed from the agreement’s file, which holds no signatures.';
  const what = version === undefined ? 'this text' : `version ${version} of this text`;
  const signed =
    signatures.length === 0
      ? `Nobody had signed ${what} when this was printed.`
      : `Whoever is named here typed the name and gave a password again to sign ${what}, under the fingerprint below.`;
  const complete = SIDES.every((side) => signatures.some((signature) => signature.side === side));
  if (complete || version === undefined) return signed;
  return `${signed} A name written on this paper by hand does not reach the record: to sign there, open it in Huskledger.`;
}

/** The signatures of both sides, kept together. */
export function signaturePieces(paper: AgreementPaper, sheet: Sheet): Piece[] {
  const { agreement, signatures } = paper;
  const blocks = SIDES.flatMap((side) => {
    const own = signatures.filter((signature) => signature.side === side);
    const pieces =
      own.length === 0
        ? unsignedPieces(side, paper, sheet)
        : own.flatMap((signature) => signedPieces(signature, agreement.timeZone, sheet));
    return [hairlinePiece(sheet), ...pieces];
  });
  const last = { ...hairlinePiece(sheet), keepWithNext: false };
  return [...sectionHeading('Signatures', sheet), ...prose(explanation(paper), sheet, true), ...blocks, last];
}
