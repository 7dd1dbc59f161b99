/**
 * What is asked of a scale, with what its plate and its certificate say.
 */
import { SCALE_UNITS } from '../../domain/quantities/units.ts';
import { ACCURACY_CLASSES } from '../../domain/scales/divisions.ts';
import type { ScaleView } from '../../usecases/scales/scale-view.ts';
import type { Field, InputField } from '../forms/field.ts';

/** Empty for a new one; else filled with what stands now. */
export function scaleFields(scale: ScaleView | undefined): readonly Field[] {
  const standing = (value: string | null | undefined): Pick<InputField, 'value'> =>
    value === undefined || value === null ? {} : { value };
  return [
    ...(scale
      ? [
          { kind: 'hidden', name: 'scale', value: scale.id } as const,
          { kind: 'hidden', name: 'version', value: String(scale.version) } as const,
        ]
      : []),
    {
      kind: 'row',
      fields: [
        { kind: 'text', name: 'name', label: 'Name', ...standing(scale?.name) },
        { kind: 'text', name: 'place', label: 'Where it stands', ...standing(scale?.place) },
      ],
    },
    {
      kind: 'list',
      name: 'unit',
      label: 'It weighs in',
      value: scale?.unit ?? 'lb',
      options: SCALE_UNITS.map((unit) => ({ value: unit, label: unit.replace('-', ' ') })),
    },
    {
      kind: 'row',
      fields: [
        { kind: 'text', name: 'capacity', label: 'Capacity', keys: 'decimal', ...standing(scale?.capacity) },
        {
          kind: 'text',
          name: 'division',
          label: 'Division',
          keys: 'decimal',
          ...standing(scale?.division),
        },
      ],
    },
    {
      kind: 'list',
      name: 'accuracy_class',
      label: 'Accuracy class, as on its plate',
      hint: 'A vehicle scale of class III L has a division of at least 5 lb, and 2,000 to 10,000 of them (NIST Handbook 44, table 3).',
      value: scale?.accuracyClass ?? 'III L',
      options: ACCURACY_CLASSES.map((name) => ({ value: name, label: name })),
    },
    {
      kind: 'choice',
      name: 'legal_for_trade',
      label: 'Is it sealed for weighing that money is paid by?',
      ...standing(scale && (scale.isLegalForTrade ? 'yes' : 'no')),
      options: [
        { value: 'yes', label: 'Yes, legal for trade' },
        { value: 'no', label: 'No' },
      ],
    },
    {
      kind: 'row',
      fields: [
        {
          kind: 'date',
          name: 'tested_on',
          label: 'Last tested',
          optional: true,
          ...standing(scale?.testedOn),
        },
        {
          kind: 'date',
          name: 'test_due_on',
          label: 'Next test due',
          optional: true,
          ...standing(scale?.testDueOn),
        },
      ],
    },
    {
      kind: 'text',
      name: 'certificate',
      label: 'Test certificate',
      hint: 'Its number, and who tested.',
      optional: true,
      ...standing(scale?.certificate),
    },
  ];
}
