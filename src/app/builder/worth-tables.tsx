/**
 * What the formula pays in figures: a grid over dry matter and starch, and five loads as strips.
 */
'use client';

import type { Figures } from '../../documents/figures.ts';
import { MEASURE_NAMES, TESTED, type Tested } from '../../domain/agreement/measures.ts';
import { type Exact, subtract } from '../../domain/numbers/exact.ts';
import { printDecimal, printFixed } from '../../domain/numbers/printing.ts';
import type { ExampleLoad } from '../../domain/worth/example-loads.ts';
import type { TriedPrice } from '../../domain/worth/try-out.ts';
import { LoadStripPicture, StripLegend } from '../strip/load-strip-picture.tsx';
import { exampleStrip } from './example-strip.ts';
import type { GridRow, PricedLoads } from './tried-formula.ts';

export interface Money {
  readonly currency: string;
  readonly decimals: number;
  /** "short ton" */
  readonly ton: string;
  readonly figures: Figures;
}

function amount(value: Exact, { decimals, figures }: Money): string {
  return figures.show(printFixed(value, decimals));
}

const SAME = 'the same';

/** "+12.40", "−3.00" or "the same". */
function difference(after: Exact, before: Exact, money: Money): string {
  const printed = printFixed(subtract(after, before), money.decimals);
  if (!/[1-9]/.test(printed)) return SAME;
  return printed.startsWith('-') ? money.figures.show(printed) : `+${money.figures.show(printed)}`;
}

export function WorthGrid({ rows, money }: { readonly rows: readonly GridRow[]; readonly money: Money }) {
  const [first] = rows;
  if (!first) return null;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a wide table scrolls by the keyboard, too
    <div className="wide-table" tabIndex={0}>
      <table className="grid">
        <caption>
          {money.currency} per {money.ton} of dry matter
          {first.before ? ', and how much more or less than before' : ''}
        </caption>
        <thead>
          <tr>
            <th scope="col">Dry matter</th>
            {first.after.map(({ starch }) => (
              <th scope="col" key={printDecimal(starch)}>
                {money.figures.show(printDecimal(starch))} % starch
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ dryMatter, after, before }) => (
            <tr key={printDecimal(dryMatter)}>
              <th scope="row">{money.figures.show(printDecimal(dryMatter))} %</th>
              {after.map(({ starch, price }, index) => (
                <td key={printDecimal(starch)}>
                  <GridCell price={price} before={before?.[index]?.price} money={money} />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface GridCellProps {
  readonly price: TriedPrice;
  readonly before: TriedPrice | undefined;
  readonly money: Money;
}

function GridCell({ price, before, money }: GridCellProps) {
  if (price.impossible !== undefined) return <span title={price.impossible}>no price</span>;
  return (
    <>
      {amount(price.perTonDry, money)}
      {before && before.impossible === undefined ? (
        <span className="changed">{difference(price.perTonDry, before.perTonDry, money)}</span>
      ) : null}
    </>
  );
}

export function ExampleLoads({ examples, money }: { readonly examples: PricedLoads; readonly money: Money }) {
  return (
    <>
      <ol className="examples">
        {examples.after.map(({ load, price }, index) => (
          <li key={load.label}>
            <p className="example-name">{load.label}</p>
            <LoadStripPicture load={exampleStrip(load, money.figures.show)} />
            <ExamplePrice price={price} before={examples.before?.[index]?.price} money={money} />
          </li>
        ))}
      </ol>
      <StripLegend />
      <AssumedFigures loads={examples.loads} />
    </>
  );
}

/** Which of the figures nobody tested. */
function AssumedFigures({ loads }: { readonly loads: readonly ExampleLoad[] }) {
  const countOf = (measure: Tested) => loads.filter(({ assumed }) => assumed.includes(measure)).length;
  const nowhere = TESTED.filter((measure) => countOf(measure) === loads.length);
  const somewhere = TESTED.filter((measure) => countOf(measure) > 0 && !nowhere.includes(measure));
  const named = (measures: readonly Tested[]) => measures.map((measure) => MEASURE_NAMES[measure]).join(', ');
  if (nowhere.length === TESTED.length) {
    return <p className="hint">None of these is tested: their figures are usual ones for such feed.</p>;
  }
  if (nowhere.length + somewhere.length === 0) return null;
  return (
    <p className="hint">
      Usual figures of such feed stand for what is not tested
      {nowhere.length === 0 ? null : `: ${named(nowhere)}`}
      {somewhere.length === 0
        ? null
        : `${nowhere.length === 0 ? ': ' : '; '}in some loads ${named(somewhere)}`}
      .
    </p>
  );
}

function ExamplePrice({ price, before, money }: GridCellProps) {
  const { currency, ton } = money;
  if (price.impossible !== undefined) return <p className="fault">No price: {price.impossible}</p>;
  return (
    <dl className="example-price">
      <div>
        <dt>{before ? 'now' : 'pays'}</dt>
        <dd>
          <strong>
            {amount(price.total, money)} {currency}
          </strong>
        </dd>
      </div>
      <div>
        <dt>per {ton} as fed</dt>
        <dd>{amount(price.perTonAsFed, money)}</dd>
      </div>
      {before === undefined ? null : <Before price={price} before={before} money={money} />}
    </dl>
  );
}

interface BeforeProps {
  readonly price: Exclude<TriedPrice, { readonly impossible: string }>;
  readonly before: TriedPrice;
  readonly money: Money;
}

function Before({ price, before, money }: BeforeProps) {
  if (before.impossible !== undefined) {
    return (
      <div>
        <dt>before</dt>
        <dd>no price: {before.impossible}</dd>
      </div>
    );
  }
  const change = difference(price.total, before.total, money);
  if (change === SAME) return <Figure name="before" value={SAME} />;
  return (
    <>
      <Figure name="before" value={`${amount(before.total, money)} ${money.currency}`} />
      <Figure name="difference" value={change} />
    </>
  );
}

function Figure({ name, value }: { readonly name: string; readonly value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  );
}
