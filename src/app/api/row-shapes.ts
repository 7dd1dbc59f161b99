/**
 * Rows as /api/v1 takes them: a JSON object with the columns of a file, every cell a text. The columns are those that
 * the use cases read, which also say what is wrong in them; here is only what each means.
 */

import { z } from 'zod';
import { MEASURE_NAMES, MEASURE_UNITS } from '../../domain/agreement/measures.ts';
import { SCALE_COLUMNS } from '../../domain/scales/scale-row.ts';
import { ALLOWANCE_COLUMNS } from '../../domain/settlement/allowance.ts';
import {
  CHOICES,
  ELECTIONS,
  MEASURE_COLUMNS,
  PRICES,
  type TableShape,
} from '../../domain/tables/table-shape.ts';
import { SERIES_COLUMNS } from '../../domain/tickets/series.ts';
import { TICKET_COLUMNS } from '../../usecases/loads/read-tickets.ts';
import { WEIGHING_COLUMNS } from '../../usecases/loads/weigh-in.ts';
import { WEIGHING_OUT_COLUMNS } from '../../usecases/loads/weigh-out.ts';
import { REPORT_COLUMNS } from '../../usecases/results/read-reports.ts';

interface ColumnWords {
  readonly says: string;
  readonly example: string;
}

const COLUMN_WORDS: Readonly<Record<string, ColumnWords>> = {
  ticket: { says: 'Number of the scale ticket.', example: '1147' },
  delivered_at: {
    says: 'When it was weighed, with its offset from UTC.',
    example: '2026-09-14T21:40:00-06:00',
  },
  gross: { says: 'Gross weight, a decimal.', example: '78220' },
  tare: { says: 'Tare weight, a decimal.', example: '31100' },
  unit: { says: 'lb, kg, short-ton or tonne.', example: 'lb' },
  sample: { says: 'Name of the sample.', example: 'S-1147' },
  miles: { says: 'How far it was hauled, in miles.', example: '11.5' },
  km: { says: 'How far it was hauled, in km; not beside miles.', example: '18.5' },
  truck: { says: 'Name of the truck.', example: 'Red tandem' },
  tare_at: {
    says: 'When the tare was weighed, where not with the gross.',
    example: '2026-09-14T22:05:00-06:00',
  },
  gross_scale: { says: 'Id of the scale of the gross.', example: '01900000-0000-7000-8000-000000000001' },
  tare_scale: { says: 'Id of the scale of the tare.', example: '01900000-0000-7000-8000-000000000001' },
  moisture_reading: { says: 'Moisture by a hand meter, percent.', example: '38.5' },
  plate: { says: 'Number plate.', example: 'QA 12' },
  weigher: { says: 'Who weighed.', example: 'Night shift' },
  photo: { says: 'SHA-256 of a photo that was sent before.', example: '0'.repeat(64) },
  basis: { says: 'What the figures are percent of: as-fed or dry-matter.', example: 'dry-matter' },
  laboratory: { says: 'Name of the laboratory.', example: 'Ridge laboratory' },
  method: { says: 'How it was tested.', example: 'NIR' },
  dry_matter_method: { says: 'How the dry matter was tested.', example: 'oven, 60 °C' },
  reported_on: { says: 'Date of the report.', example: '2026-09-16' },
  series: { says: 'Name of the price series.', example: 'corn-elevator-bid' },
  date: { says: 'Date, YYYY-MM-DD.', example: '2026-09-14' },
  price: { says: 'Price, a decimal.', example: '4.20' },
  weighed_at: {
    says: 'When it was weighed, with its offset from UTC.',
    example: '2026-09-14T21:40:00-06:00',
  },
  scale: { says: 'Id of the scale.', example: '01900000-0000-7000-8000-000000000001' },
  name: { says: 'What the scale is called.', example: 'Pit scale' },
  place: { says: 'Where it stands.', example: 'At the dairy' },
  capacity: { says: 'The most that it weighs, a decimal.', example: '120000' },
  division: { says: 'The step that it shows, a decimal.', example: '20' },
  accuracy_class: { says: 'As on its plate: III L, III or not marked.', example: 'III L' },
  legal_for_trade: { says: 'yes or no.', example: 'yes' },
  tested_on: { says: 'Day of its last test, YYYY-MM-DD.', example: '2026-06-01' },
  test_due_on: { says: 'Day by which it must be tested again, YYYY-MM-DD.', example: '2027-06-01' },
  certificate: { says: 'Number of the certificate of that test.', example: 'C-1147' },
  first: { says: 'Digits of the first ticket, as they are printed.', example: '001147' },
  prefix: { says: 'What stands before the digits of each ticket.', example: 'K-' },
  taken_at: { says: 'When it was taken, with its offset from UTC.', example: '2026-09-14T21:50:00-06:00' },
  taken_by: { says: 'Who took it.', example: 'Night shift' },
  how: { says: 'How it was taken.', example: 'Five scoops while the truck unloaded' },
  part: { says: 'Whom the part is for: laboratory, seller, buyer or referee.', example: 'laboratory' },
  seal: { says: 'Number of the seal.', example: 'SEAL-1147' },
  airtight: { says: 'yes or no.', example: 'yes' },
  kept_where: { says: 'Where it is kept.', example: 'Freezer in the scale house' },
  kept_until: { says: 'Last day on which it is kept, YYYY-MM-DD.', example: '2026-12-31' },
  handed_at: {
    says: 'When it was handed over, with its offset from UTC.',
    example: '2026-09-15T09:00:00-06:00',
  },
  to_whom: { says: 'Who has it now.', example: 'Ridge laboratory' },
  seal_intact: { says: 'Whether the seal was whole: yes or no.', example: 'yes' },
  taken_off: { says: 'Money that is taken off, above 0, a decimal.', example: '3.50' },
  per: { says: 'Per what: short-ton, tonne, another weight, or load.', example: 'load' },
  weight: { says: 'Of which weight: as-fed or dry-matter; empty per load.', example: 'as-fed' },
  choice: { says: 'accept or refuse.', example: 'accept' },
  ...Object.fromEntries(
    [...MEASURE_COLUMNS].map(([column, measure]) => {
      const unit = MEASURE_UNITS[measure];
      const says = `${MEASURE_NAMES[measure]}${unit === '' ? '' : `, ${unit} (or by the basis)`}, a decimal.`;
      return [column, { says, example: measure === 'dry-matter' ? '59.2' : '24' }];
    }),
  ),
};

const CELL = z.string({ error: 'must be a text, in quotes: "78220"' });

/** A row with these columns. */
export function rowShape({ required, optional }: Pick<TableShape, 'required' | 'optional'>) {
  const properties = Object.fromEntries(
    [...required, ...optional].map((column) => {
      const words = COLUMN_WORDS[column];
      if (!words) throw new Error(`Nothing is said of the column ${column}`);
      return [column, { type: 'string', description: words.says, examples: [words.example] }] as const;
    }),
  );
  // Columns are checked by the use case, which names every fault of every row at once.
  return z
    .record(z.string(), CELL, { error: 'must be an object of texts by column' })
    .meta({ type: 'object', properties, required: [...required], additionalProperties: false });
}

export const TICKET_ROW = rowShape(TICKET_COLUMNS);
export const WEIGHING_ROW = rowShape(WEIGHING_COLUMNS);
export const WEIGHING_OUT_ROW = rowShape(WEIGHING_OUT_COLUMNS);
export const REPORT_ROW = rowShape(REPORT_COLUMNS);
export const SCALE_ROW = rowShape(SCALE_COLUMNS);
export const TICKET_SERIES_ROW = rowShape(SERIES_COLUMNS);
export const QUOTE_ROW = rowShape(PRICES);
export const ELECTION_ROW = rowShape(ELECTIONS);
export const ALLOWANCE_ROW = rowShape(ALLOWANCE_COLUMNS);
export const CHOICE_ROW = rowShape(CHOICES);

const MOST_ROWS = 5_000;

/** Several rows at once. */
export function rows(row: z.ZodType<Record<string, string>>) {
  return z.array(row, { error: 'must be a list of rows' }).max(MOST_ROWS, {
    error: `must have ${MOST_ROWS} rows at most; send the rest in another request`,
  });
}

/** Said where figures were refused as unusual, and are right. */
export const CONFIRMED = z
  .boolean({ error: 'must be true or false' })
  .default(false)
  .describe('True once a person has looked at figures that were refused as unusual, and they are right.');

export const REASON = z
  .string({ error: 'must be a text' })
  .meta({ description: 'Why, in a sentence that both sides read.', examples: ['The gross was misread'] });
