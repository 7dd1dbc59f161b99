/**
 * The fields of each entry of a silo's account, empty or with what stands now.
 */
import { SILO_KINDS, type SiloKind } from '../../../../domain/storage/silo-kind.ts';
import type { SiloEntryKind } from '../../../../domain/storage/silo-row.ts';
import type { Field, Option } from '../../../forms/field.ts';

const KIND_LABELS: Readonly<Record<SiloKind, string>> = {
  bag: 'Bag',
  bunker: 'Bunker',
  pile: 'Pile',
  tower: 'Tower',
};

const UNITS: readonly Option[] = [
  { value: 'lb', label: 'lb' },
  { value: 'short-ton', label: 'short tons' },
  { value: 'kg', label: 'kg' },
  { value: 'tonne', label: 'tonnes' },
];

/** `values` are the texts that stand in the fields at first, by column. */
export function siloFields(kind: SiloEntryKind, values: Readonly<Record<string, string>>): readonly Field[] {
  const of = (name: string, label: string, hint?: string) => ({
    ...{ name, label },
    ...(hint === undefined ? {} : { hint }),
    ...(values[name] === undefined ? {} : { value: values[name] }),
  });
  const figure = (name: string, label: string, hint?: string) =>
    ({ kind: 'text', keys: 'decimal', ...of(name, label, hint) }) as const;
  // Of what is left none may be needed, since it may be empty.
  const optional = kind === 'left';
  const weight = {
    kind: 'row',
    fields: [
      { ...figure('weight', 'Weight, as it lies'), optional },
      { kind: 'list', ...of('unit', 'Unit'), options: UNITS },
      { ...figure('dry_matter', 'Dry matter, percent'), optional },
    ],
  } as const;
  switch (kind) {
    case 'silo':
      return [
        { kind: 'text', ...of('name', 'What you call it', 'Like “North bag”.') },
        {
          kind: 'choice',
          ...of('kind', 'What it is'),
          options: SILO_KINDS.map((value) => ({ value, label: KIND_LABELS[value] })),
        },
      ];
    case 'filling':
      return [
        {
          kind: 'row',
          fields: [
            { kind: 'date', ...of('from', 'Loads delivered from') },
            { kind: 'date', ...of('to', 'To, that day too') },
          ],
        },
        {
          kind: 'text',
          ...of(
            'tickets',
            'Only these tickets',
            'Empty for all loads of these days. Between them a comma, like “T1, T2”.',
          ),
          optional: true,
        },
      ];
    case 'fed':
      return [
        {
          kind: 'row',
          fields: [
            { kind: 'date', ...of('from', 'Fed on, or from') },
            { kind: 'date', ...of('to', 'To, for a sum of several days'), optional: true },
          ],
        },
        weight,
      ];
    case 'left':
      return [
        { kind: 'date', ...of('on', 'When the feeding of this day was done') },
        {
          kind: 'choice',
          ...of('how', 'What was left'),
          options: [
            { value: 'empty', label: 'Nothing: it is empty' },
            { value: 'weighed', label: 'A weight' },
            { value: 'measured', label: 'A volume and its density' },
          ],
        },
        weight,
        {
          kind: 'row',
          fields: [
            { ...figure('volume', 'Volume'), optional: true },
            { ...figure('density', 'Density, as it lies, water included'), optional: true },
            {
              kind: 'list',
              ...of('measures', 'Measured in'),
              options: [
                { value: 'feet', label: 'cubic feet, lb in each' },
                { value: 'metres', label: 'cubic metres, kg in each' },
              ],
            },
          ],
        },
      ];
  }
}
