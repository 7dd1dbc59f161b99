/**
 * What is open before a season is closed, each with the page on which it is settled.
 */
import {
  type OpenPoint,
  type OpenPointKind,
  type PointWords,
  pointInWords,
} from '../../../../domain/season-close/open-points.ts';
import type { CloseView } from '../../../../usecases/season-close/read-close.ts';

const PAGES: Readonly<Record<OpenPointKind, (agreementId: string) => string>> = {
  weighing: () => '/scale',
  proposal: (id) => `/agreements/${id}`,
  correction: () => '/corrections',
  payment: (id) => `/money/payments?agreement=${id}`,
  'set-off': (id) => `/money/payments?agreement=${id}`,
  difference: () => '#differences',
  'past-season': (id) => `/agreements/${id}/past-seasons`,
  'not-invoiced': (id) => `/money/issue?agreement=${id}`,
  question: (id) => `/retests?agreement=${id}`,
  held: (id) => `/money/statement?agreement=${id}`,
  unsettled: (id) => `/loads?agreement=${id}`,
  advance: (id) => `/money/documents?agreement=${id}`,
  adjustment: () => '#season-rules',
  interest: (id) => `/money/issue?agreement=${id}`,
  balance: (id) => `/money/statement?agreement=${id}`,
};

export interface OpenPointsProps {
  readonly agreementId: string;
  readonly view: CloseView;
  readonly words: PointWords;
}

export function OpenPoints({ agreementId, view: { points, inTheWay }, words }: OpenPointsProps) {
  const list = (of: readonly OpenPoint[]) => (
    <ul>
      {of.map((point) => (
        <li key={pointInWords(point, words)}>
          <a href={PAGES[point.kind](agreementId)}>{pointInWords(point, words)}</a>.
        </li>
      ))}
    </ul>
  );
  const carried = points.filter((point) => !inTheWay.includes(point));
  return (
    <>
      {inTheWay.length === 0 ? null : (
        <section aria-labelledby="in-the-way">
          <h2 id="in-the-way">To settle first</h2>
          {list(inTheWay)}
        </section>
      )}
      {carried.length === 0 ? null : (
        <section aria-labelledby="carried">
          <h2 id="carried">Open, and may be carried over if both agree</h2>
          {list(carried)}
        </section>
      )}
    </>
  );
}
