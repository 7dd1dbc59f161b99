/**
 * One lot in a list: whose it is and how it stands, the feed with its parts, its strip, and what it costs the reader.
 */
import type { LotSummary } from '../../usecases/lots/lot-summary.ts';
import { addressOf } from '../place/asked.ts';
import { opening } from '../place/sentence.ts';
import { LoadStripPicture } from '../strip/load-strip-picture.tsx';
import { distanceWords, feedTitle, lotName, standingWords, testWords } from './lot-words.ts';
import { PriceView } from './price-view.tsx';

export interface LotRowProps {
  readonly lot: LotSummary;
  /** What the next address carries on. */
  readonly basis: Readonly<Record<string, string>>;
  readonly mayCompare: boolean;
}

export function LotRow({ lot, basis, mayCompare }: LotRowProps) {
  const { id, amount, storage, harvest, region } = lot;
  const facts = [opening(storage), `harvest ${harvest.from} to ${harvest.to}`, region, distanceWords(lot)];
  return (
    <li className="lot">
      <div className="lot-line">
        <h3>
          <a href={addressOf(`/lots/${id}`, basis)}>{lotName(lot)}</a>
        </h3>
        <span className="lot-standing">{standingWords(lot)}</span>
        {mayCompare ? (
          <label className="tick" htmlFor={`compare-${id}`}>
            <input type="checkbox" id={`compare-${id}`} name="lot" value={id} />
            Compare<span className="spoken"> {lotName(lot)}</span>
          </label>
        ) : null}
      </div>
      <p className="lot-feed">{feedTitle(lot.feed)}</p>
      <LoadStripPicture load={lot.strip} />
      <p className="lot-amount">
        <strong>{amount}</strong> · {testWords(lot)}
      </p>
      <p className="hint">{facts.filter((fact) => fact !== undefined).join(' · ')}</p>
      <PriceView lot={lot} />
    </li>
  );
}
