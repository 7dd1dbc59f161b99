/**
 * A season's work without end: loads are weighed, one or many at once; their results come; they are settled, one by
 * name or all that are ready. Seeded.
 */
import { type Chance, chanceFrom } from '../../oracle/random.ts';
import type { Answer, Asked, Row } from './said.ts';

export interface Lane {
  readonly name: string;
  readonly seed: number;
  readonly agreementId: string;
  /** Loads that are recorded at once at most. */
  readonly most: number;
}

/** Yields what to ask next; is given the answer to it. */
export function* truckloads({ name, seed, agreementId, most }: Lane): Generator<Asked, never, Answer> {
  const chance = chanceFrom(seed);
  for (let turn = 1; ; turn++) {
    const key = `${name}-${turn}`;
    const count = Math.min(most, chance.happens(0.1) ? chance.integer(20, 80) : chance.integer(1, 3));
    const tickets = Array.from({ length: count }, (_, index) => `${key}-${index + 1}`);
    const loads = tickets.map((ticket) => weighed(ticket, chance));
    const recorded = yield { verb: 'record-loads', key: `${key}-loads`, agreementId, rows: loads };
    const rows = tickets.map((ticket) => reported(ticket, chance));
    yield { verb: 'record-results', key: `${key}-results`, agreementId, rows };
    const loadId = count === 1 && 'length' in recorded ? (recorded[0]?.id ?? null) : null;
    yield { verb: 'settle', key: `${key}-settle`, agreementId, loadId, tickets };
  }
}

function weighed(ticket: string, chance: Chance): Row {
  const day = String(chance.integer(12, 16));
  return {
    ticket,
    delivered_at: `2026-10-${day}T${chance.integer(10, 19)}:${chance.integer(10, 59)}:00-06:00`,
    gross: String(chance.integer(3_800, 4_100) * 20),
    tare: String(chance.integer(1_400, 1_600) * 20),
    unit: 'lb',
    sample: `S-${ticket}`,
  };
}

function reported(ticket: string, chance: Chance): Row {
  const tenths = (low: number, high: number) => (chance.integer(low, high) / 10).toFixed(1);
  return {
    sample: `S-${ticket}`,
    basis: 'dry-matter',
    dry_matter: tenths(580, 650),
    starch: tenths(500, 560),
    ndf: tenths(260, 320),
  };
}
