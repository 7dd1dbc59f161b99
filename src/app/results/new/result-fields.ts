/**
 * What the laboratory clerk is asked for: the figures that most laboratories report first, the others behind a fold.
 */
import { MEASURE_NAMES, TESTED, type Tested } from '../../../domain/agreement/measures.ts';
import { columnOf } from '../../../domain/tables/table-shape.ts';
import type { AgreementView } from '../../../usecases/agreements/read-agreement-words.ts';
import type { Field, InputField, TextField } from '../../forms/field.ts';
import { opening } from '../../place/sentence.ts';

const FIRST: readonly Tested[] = ['dry-matter', 'starch', 'ndf'];

const UNITS: Readonly<Partial<Record<Tested, string>>> = {
  ph: '',
  'particle-size': 'µm',
  aflatoxin: 'µg/kg as-fed',
  vomitoxin: 'mg/kg as-fed',
  'ammonia-nitrogen': '% of total nitrogen',
  'dry-matter': '% as-fed',
};

export interface ReportPreset {
  readonly basis?: string | undefined;
  readonly dryMatterMethod?: string | undefined;
}

export interface ResultPreset extends ReportPreset {
  readonly sample: string | undefined;
  readonly laboratory: string | undefined;
}

export function resultFields(agreement: AgreementView, preset: ResultPreset): readonly Field[] {
  const { awaited } = agreement;
  const known = awaited.some(({ name }) => name === preset.sample);
  const other = known ? undefined : preset.sample;
  return [
    { kind: 'hidden', name: 'agreement', value: agreement.id },
    {
      kind: 'list',
      name: 'sample',
      label: 'Sample',
      value: known ? (preset.sample ?? '') : '',
      options: [
        { value: '', label: awaited.length === 0 ? 'No ticket names one' : 'Choose the sample…' },
        ...awaited.map(({ name, loads }) => ({
          value: name,
          label: `${name}, ${loads === 1 ? 'one load' : `${loads} loads`}`,
        })),
      ],
    },
    {
      kind: 'more',
      summary: 'A sample that is not in the list',
      isOpen: awaited.length === 0,
      fields: [
        {
          kind: 'text',
          name: 'other_sample',
          label: 'Its name',
          hint: 'A sample of a whole day has the day for its name, like 2026-10-28.',
          ...(other ? { value: other } : {}),
        },
      ],
    },
    ...reportFields(preset, [
      {
        kind: 'text',
        name: 'laboratory',
        label: 'Laboratory',
        ...(preset.laboratory ? { value: preset.laboratory } : {}),
      },
    ]),
  ];
}

/** What a report says, whoever enters it; `others` stand among what most can pass over. */
export function reportFields(
  { basis, dryMatterMethod }: ReportPreset,
  others: readonly InputField[],
): readonly Field[] {
  return [
    {
      kind: 'choice',
      name: 'basis',
      label: 'Starch, fibre and the like are reported on',
      ...(basis === undefined ? {} : { value: basis }),
      options: [
        { value: 'dry-matter', label: 'dry matter' },
        { value: 'as-fed', label: 'as-fed weight' },
      ],
    },
    { kind: 'row', fields: FIRST.map((measure) => figureField(measure, false)) },
    {
      kind: 'text',
      name: 'dry_matter_method',
      label: 'How dry matter was measured',
      hint: 'Like “oven, 60 °C” or “Karl Fischer”. On wet fermented corn an oven drives off acids and alcohol with the water, so methods differ.',
      optional: true,
      ...(dryMatterMethod ? { value: dryMatterMethod } : {}),
    },
    {
      kind: 'more',
      summary: 'Other figures, method and report',
      fields: [
        ...TESTED.filter((measure) => !FIRST.includes(measure)).map((measure) => figureField(measure, true)),
        ...others,
        { kind: 'text', name: 'method', label: 'Method' },
        { kind: 'date', name: 'reported_on', label: 'Reported on' },
        {
          kind: 'file',
          name: 'report',
          label: 'The laboratory’s report',
          hint: 'A PDF, or a picture as PNG or JPEG, of at most 10 MB. It can be attached later, too.',
          accept: '.pdf,.png,.jpg,.jpeg',
        },
      ],
    },
  ];
}

/** The unit of a figure as a laboratory reports it, on whichever basis its report has. */
export function reportedUnit(measure: Tested): string {
  return UNITS[measure] ?? '%';
}

function figureField(measure: Tested, isOptional: boolean): TextField {
  const name = MEASURE_NAMES[measure];
  return {
    kind: 'text',
    name: columnOf(measure),
    label: opening(name),
    keys: 'decimal',
    unit: reportedUnit(measure),
    ...(isOptional || measure === 'dry-matter' ? {} : { optional: true }),
  };
}
