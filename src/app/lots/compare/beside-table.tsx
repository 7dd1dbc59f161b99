/**
 * Lots side by side, a column for each under its letter.
 */
import type { FigureView, LotSummary } from '../../../usecases/lots/lot-summary.ts';
import { addressOf } from '../../place/asked.ts';
import { opening } from '../../place/sentence.ts';
import { LoadStripPicture } from '../../strip/load-strip-picture.tsx';
import { distanceWords, feedTitle, haulWords, lotName, standingWords, unpricedWords } from '../lot-words.ts';

export interface LetteredLot {
  readonly letter: string;
  readonly lot: LotSummary;
}

export interface BesideTableProps {
  readonly lots: readonly LetteredLot[];
  readonly basis: Readonly<Record<string, string>>;
}

interface Line {
  readonly name: string;
  readonly of: (lot: LotSummary) => React.ReactNode;
  readonly isFigure?: boolean;
}

const priced = (lot: LotSummary) => (lot.worth.status === 'priced' ? lot.worth : undefined);

function Figure({ figure }: { readonly figure: FigureView }) {
  return (
    <>
      {figure.shown} %{figure.isTested ? null : <span className="hint"> not tested</span>}
    </>
  );
}

const LINES: readonly Line[] = [
  { name: 'Feed', of: ({ feed }) => feedTitle(feed) },
  { name: 'Strip', of: ({ strip }) => <LoadStripPicture load={strip} /> },
  {
    name: 'A ton of dry matter',
    isFigure: true,
    of: (lot) => (
      <strong>
        {priced(lot)?.dry ?? '–'} {priced(lot) ? `${lot.currency} a ${lot.ton}` : ''}
        {priced(lot)?.haulLacks.length ? ' plus your haulage' : ''}
      </strong>
    ),
  },
  { name: 'A ton of starch', isFigure: true, of: (lot) => priced(lot)?.starch ?? '–' },
  { name: 'A ton as fed', isFigure: true, of: (lot) => priced(lot)?.asFed ?? '–' },
  {
    name: 'Reckoned',
    of: (lot) =>
      lot.worth.status === 'priced'
        ? [...lot.worth.at.map((quote) => `at ${quote}`), haulWords(lot)].join('; ')
        : unpricedWords(lot.worth),
  },
  { name: 'Dry matter', isFigure: true, of: ({ dryMatter }) => <Figure figure={dryMatter} /> },
  { name: 'Starch, of dry matter', isFigure: true, of: ({ starch }) => <Figure figure={starch} /> },
  { name: 'NDF, of dry matter', isFigure: true, of: ({ ndf }) => <Figure figure={ndf} /> },
  { name: 'Tests', isFigure: true, of: ({ tests }) => (tests === 0 ? 'none yet' : tests) },
  { name: 'Amount', of: ({ amount }) => amount },
  { name: 'Stored', of: ({ storage }) => opening(storage) },
  { name: 'Harvest', of: ({ harvest }) => `${harvest.from} to ${harvest.to}` },
  { name: 'Processing', of: ({ processing }) => processing ?? 'not said' },
  { name: 'Where', of: (lot) => [lot.region, distanceWords(lot)].filter(Boolean).join(', ') },
  { name: 'Hauled by', of: ({ hauledBy, seller }) => (hauledBy === 'seller' ? seller : 'the buyer') },
  { name: 'Weighed by', of: ({ weighedBy }) => weighedBy },
  { name: 'Stands', of: standingWords },
];

export function BesideTable({ lots, basis }: BesideTableProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too
    <div className="wide-table" tabIndex={0}>
      <table className="grid beside-lots">
        <thead>
          <tr>
            <th scope="col">
              <span className="spoken">What</span>
            </th>
            {lots.map(({ letter, lot }) => (
              <th scope="col" key={letter}>
                {letter}: <a href={addressOf(`/lots/${lot.id}`, basis)}>{lotName(lot)}</a>
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {LINES.map(({ name, of, isFigure }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              {lots.map(({ letter, lot }) => (
                <td key={letter} className={isFigure ? 'figure' : undefined}>
                  {of(lot)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
