/**
 * What the scale operator is asked for, in the order of the work.
 */
import type { AgreementView } from '../../../usecases/agreements/read-agreement-words.ts';
import type { Field, Option } from '../../forms/field.ts';
import { wallClockNow } from '../../times/wall-clock.ts';

const UNITS: readonly Option[] = [
  { value: 'lb', label: 'lb' },
  { value: 'kg', label: 'kg' },
  { value: 'short-ton', label: 'short ton' },
  { value: 'tonne', label: 'tonne' },
];

const DISTANCES: readonly Option[] = [
  { value: 'miles', label: 'miles' },
  { value: 'km', label: 'km' },
];

export interface Weighing {
  readonly now: number;
  /** The unit of the load before. */
  readonly unit: string | undefined;
}

export function weighingFields(agreement: AgreementView, { now, unit }: Weighing): readonly Field[] {
  const { timeZone, distanceNeeded } = agreement;
  const isAmerican = agreement.currency === 'USD';
  return [
    { kind: 'hidden', name: 'agreement', value: agreement.id },
    {
      kind: 'row',
      fields: [
        { kind: 'text', name: 'ticket', label: 'Ticket' },
        { kind: 'text', name: 'truck', label: 'Truck', optional: true },
      ],
    },
    {
      kind: 'row',
      fields: [
        { kind: 'text', name: 'gross', label: 'Gross', keys: 'decimal', large: true },
        { kind: 'text', name: 'tare', label: 'Tare', keys: 'decimal', large: true },
      ],
    },
    {
      kind: 'choice',
      name: 'unit',
      label: 'The scale weighs in',
      value: unit ?? (isAmerican ? 'lb' : 'kg'),
      options: UNITS,
    },
    ...(distanceNeeded ? distanceFields(isAmerican) : []),
    sampleField(agreement),
    {
      kind: 'wall-clock',
      name: 'delivered_at',
      label: `Time on the scale, ${timeZone.replaceAll('_', ' ')}`,
      value: wallClockNow(now, timeZone),
      timeZone,
    },
  ];
}

/** What is called as nothing else can be found again: a load that needs tests has a sample, whoever names it. */
function sampleField({ sampling, testsNeeded }: AgreementView): Field {
  const field = { kind: 'text', name: 'sample', label: 'Sample' } as const;
  if (!testsNeeded) return { ...field, optional: true };
  switch (sampling) {
    case 'per-load':
      return { ...field, optional: true, hint: 'Left empty, it is called as the ticket.' };
    case 'per-day':
      return { ...field, optional: true, hint: 'Left empty, it is the sample of the day.' };
    case 'composite':
      return field;
  }
}

function distanceFields(isAmerican: boolean): readonly Field[] {
  return [
    {
      kind: 'row',
      fields: [
        {
          kind: 'text',
          name: 'distance',
          label: 'Distance hauled',
          keys: 'decimal',
        },
        {
          kind: 'choice',
          name: 'distance_unit',
          label: 'In',
          value: isAmerican ? 'miles' : 'km',
          options: DISTANCES,
        },
      ],
    },
  ];
}
