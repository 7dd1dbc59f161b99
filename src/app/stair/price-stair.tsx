/**
 * The price stair: a step for each line of the agreement, in its order and words, from nothing to the total. Each opens
 * on how it came about, in figures that anyone can repeat.
 */
import type { InvoiceLine } from '../../documents/invoice/invoice-data.ts';
import { type StairStep, stairOf } from './stair-steps.ts';

const ofWhole = (part: number) => `${Number((part * 100).toFixed(4))}%`;

export interface PriceStairProps {
  readonly lines: readonly InvoiceLine[];
  /** The lines' amounts as plain decimals. */
  readonly amounts: readonly string[];
  readonly total: string;
  readonly currency: string;
}

export function PriceStair({ lines, amounts, total, currency }: PriceStairProps) {
  const stair = stairOf(amounts);
  return (
    <div className="stair">
      {lines.map((line, index) => {
        const step = stair.steps[index];
        return (
          // A line has no name but its place: two may have one label.
          // biome-ignore lint/suspicious/noArrayIndexKey: lines never move
          <details key={index} className="step">
            <summary>
              <span className="step-label">{line.label}</span>
              {step ? <StepBar step={step} zero={stair.zero} /> : null}
              <span className="amount">{line.amount}</span>
            </summary>
            <HowItCame line={line} currency={currency} />
          </details>
        );
      })}
      <div className="step step-total">
        <span className="step-label">Total, {currency}</span>
        <StepBar step={stair.total} zero={stair.zero} isTotal />
        <span className="amount">{total}</span>
      </div>
    </div>
  );
}

/** A line that comes to nothing still shows where the sum stands. */
const THINNEST = 0.003;

function StepBar({
  step: { from, to, isDown },
  zero,
  isTotal = false,
}: {
  readonly step: StairStep;
  readonly zero: number;
  readonly isTotal?: boolean;
}) {
  const kind = isTotal ? 'bar-total' : isDown ? 'bar-down' : 'bar-up';
  return (
    <svg className="step-bar" width="100%" height="22" aria-hidden="true" focusable="false">
      <line className="bar-zero" x1={ofWhole(zero)} x2={ofWhole(zero)} y1="0" y2="22" />
      <rect
        className={kind}
        x={ofWhole(Math.min(from, 1 - THINNEST))}
        width={ofWhole(Math.max(to - from, THINNEST))}
        y="4"
        height="14"
      />
    </svg>
  );
}

function HowItCame({ line, currency }: { readonly line: InvoiceLine; readonly currency: string }) {
  const isShare = line.unit === currency;
  return (
    <dl className="how">
      <div>
        <dt>{isShare ? 'Of a sum of' : 'Quantity'}</dt>
        <dd>
          {line.quantity} {unitWord(line.unit)}
        </dd>
      </div>
      <div>
        <dt>Rate</dt>
        <dd>{isShare ? line.rate : `${line.rate} ${currency} per ${unitWord(line.unit)}`}</dd>
      </div>
      <div className="how-chain">
        <dt>How it comes about</dt>
        <dd>{line.how}</dd>
      </div>
      <div>
        <dt>Amount, rounded once</dt>
        <dd>
          {line.amount} {currency}
        </dd>
      </div>
    </dl>
  );
}

function unitWord(unit: string): string {
  return unit === 'short-ton' ? 'short ton' : unit;
}
