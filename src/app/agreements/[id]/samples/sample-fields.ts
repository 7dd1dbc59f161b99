/**
 * What is asked for when a sample is taken, sealed in parts, or handed over.
 */
import { SAMPLE_PARTS } from '../../../../domain/agreement/retest-rules.ts';
import type { PartView, SamplesView } from '../../../../usecases/samples/read-samples.ts';
import type { Field, InputField } from '../../../forms/field.ts';
import { opening } from '../../../place/sentence.ts';
import { wallClockNow } from '../../../times/wall-clock.ts';

/** The columns of a part that have a field for each of the four. */
export const PART_FIELDS = ['seal', 'kept_where', 'kept_until', 'airtight'] as const;

/** As many loads as can be looked through; the others are named by ticket. */
const MOST_TICKED = 24;

export interface Taken {
  readonly agreementId: string;
  readonly timeZone: string;
  readonly now: number;
  /** The reader, who most likely took it. */
  readonly person: string;
  readonly sample: string | undefined;
  /** A load that it stands for. */
  readonly ticket: string | undefined;
}

export function takingFields(
  { plan, unsampled }: Pick<SamplesView, 'plan' | 'unsampled'>,
  taken: Taken,
): readonly Field[] {
  const { agreementId, timeZone, now, person, sample, ticket } = taken;
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    {
      kind: 'text',
      name: 'sample',
      label: 'Sample',
      hint: NAME_HINTS[plan],
      ...preset(sample ?? (plan === 'per-load' ? ticket : undefined)),
    },
    ...loadFields({ plan, unsampled }, ticket),
    {
      kind: 'wall-clock',
      name: 'taken_at',
      label: `Taken at, ${timeZone.replaceAll('_', ' ')}`,
      value: wallClockNow(now, timeZone),
      timeZone,
    },
    { kind: 'text', name: 'taken_by', label: 'Taken by', value: person },
    { kind: 'text', name: 'how', label: 'How', hint: 'Like “five scoops from the unloading stream, mixed”.' },
  ];
}

const NAME_HINTS = {
  'per-load': 'As its ticket names it. A load that names none yet takes this name.',
  'per-day': 'A sample of a whole day has the day for its name, like 2026-10-28.',
  composite: 'A new name, or the one that tickets name already.',
} as const;

function loadFields(
  { plan, unsampled }: Pick<SamplesView, 'plan' | 'unsampled'>,
  ticket: string | undefined,
): readonly Field[] {
  // The last ones delivered are those that a sample was just taken of.
  const offered = unsampled.slice(-MOST_TICKED).reverse();
  if (plan === 'per-load') {
    if (offered.length === 0) return [];
    return [
      {
        kind: 'list',
        name: 'tickets',
        label: 'The load',
        ...preset(ticket),
        options: [
          { value: '', label: 'It names the sample on its ticket' },
          ...offered.map((load) => ({ value: load.ticket, label: `${load.ticket}, ${load.deliveredOn}` })),
        ],
      },
    ];
  }
  if (plan === 'per-day' && unsampled.length === 0) return [];
  return [
    ...(offered.length === 0
      ? []
      : [
          {
            kind: 'checks',
            name: 'tickets',
            label: 'Loads that it stands for',
            hint: 'Of those that name no sample yet, the newest first.',
            ticked: ticket === undefined ? [] : [ticket],
            options: offered.map((load) => ({ value: load.ticket, label: load.ticket })),
          } as const,
        ]),
    {
      kind: 'more',
      summary: 'Name the tickets',
      fields: [{ kind: 'text', name: 'other_tickets', label: 'Tickets', hint: 'With a comma between them.' }],
    },
  ];
}

export function partFields(agreementId: string, sample: string | undefined): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'text', name: 'sample', label: 'Sample', ...preset(sample) },
    ...SAMPLE_PARTS.map(
      (part): Field => ({
        kind: 'row',
        fields: [
          { kind: 'text', name: `seal_${part}`, label: `${opening(part)}: seal` },
          { kind: 'text', name: `kept_where_${part}`, label: 'Kept where' },
          { kind: 'date', name: `kept_until_${part}`, label: 'Kept until', optional: true },
          {
            kind: 'list',
            name: `airtight_${part}`,
            label: 'Airtight',
            options: [
              { value: '', label: 'Say…' },
              { value: 'yes', label: 'Yes' },
              { value: 'no', label: 'No' },
            ],
          },
        ],
      }),
    ),
  ];
}

export function handoverFields(
  { id, seal, keptUntil }: PartView,
  { agreementId, timeZone, now }: Pick<Taken, 'agreementId' | 'timeZone' | 'now'>,
): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'part', value: id },
    { kind: 'hidden', name: 'seal', value: seal },
    { kind: 'text', name: 'to_whom', label: 'Handed to' },
    {
      kind: 'wall-clock',
      name: 'handed_at',
      label: `At, ${timeZone.replaceAll('_', ' ')}`,
      value: wallClockNow(now, timeZone),
      timeZone,
    },
    {
      kind: 'row',
      fields: [
        { kind: 'text', name: 'kept_where', label: 'Kept where now' },
        { kind: 'date', name: 'kept_until', label: 'Kept until', optional: true, ...preset(keptUntil) },
      ],
    },
    {
      kind: 'choice',
      name: 'seal_intact',
      label: `Was seal ${seal} whole?`,
      options: [
        { value: 'yes', label: 'Yes, whole' },
        { value: 'no', label: 'No, broken' },
      ],
    },
  ];
}

function preset(value: string | null | undefined): Pick<InputField, 'value'> {
  return value === undefined || value === null || value === '' ? {} : { value };
}
