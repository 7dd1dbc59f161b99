/**
 * What stands on a ticket and in a result, in fields, to be put right where it is wrong.
 */
import { MEASURE_NAMES, TESTED } from '../../../../domain/agreement/measures.ts';
import { columnOf } from '../../../../domain/tables/table-shape.ts';
import type { SubjectView } from '../../../../usecases/corrections/read-subject.ts';
import type { Field, InputField } from '../../../forms/field.ts';
import { opening } from '../../../place/sentence.ts';
import { reportedUnit } from '../../../results/new/result-fields.ts';
import { wallClockNow } from '../../../times/wall-clock.ts';

/** The columns of a ticket that the form shows; others are sent as they stand. */
export const SHOWN_COLUMNS = ['ticket', 'truck', 'gross', 'tare', 'unit', 'sample', 'miles', 'km'];

export function ticketRightFields(subject: SubjectView): readonly Field[] {
  const { ticket, timeZone, deliveredAt } = subject;
  const text = (name: string, label: string): InputField => ({
    kind: 'text',
    name,
    label,
    ...(ticket[name] === undefined ? {} : { value: ticket[name] }),
  });
  const distance = ['miles', 'km'].filter((name) => ticket[name] !== undefined);
  return [
    ...about(subject),
    { kind: 'row', fields: [text('ticket', 'Ticket'), text('truck', 'Truck')] },
    {
      kind: 'row',
      fields: [
        { ...text('gross', 'Gross'), kind: 'text', keys: 'decimal', large: true },
        { ...text('tare', 'Tare'), kind: 'text', keys: 'decimal', large: true },
      ],
    },
    {
      kind: 'list',
      name: 'unit',
      label: 'The scale weighs in',
      value: ticket['unit'] ?? 'lb',
      options: ['lb', 'kg', 'short-ton', 'tonne'].map((unit) => ({
        value: unit,
        label: unit.replace('-', ' '),
      })),
    },
    text('sample', 'Sample'),
    ...distance.map((name) => text(name, name === 'km' ? 'Kilometres hauled' : 'Miles hauled')),
    {
      kind: 'wall-clock',
      name: 'time',
      label: `Time on the scale, ${timeZone.replaceAll('_', ' ')}`,
      value: wallClockNow(deliveredAt, timeZone),
      timeZone,
    },
    reasonField(),
  ];
}

export function resultRightFields(
  subject: SubjectView,
  { id, sample, cells }: NonNullable<SubjectView['result']>,
): readonly Field[] {
  return [
    ...about(subject),
    { kind: 'hidden', name: 'result', value: id },
    { kind: 'hidden', name: 'sample', value: sample },
    {
      kind: 'choice',
      name: 'basis',
      label: 'Starch, fibre and the like are reported on',
      value: cells['basis'] ?? 'dry-matter',
      options: [
        { value: 'dry-matter', label: 'dry matter' },
        { value: 'as-fed', label: 'as-fed weight' },
      ],
    },
    ...TESTED.map((measure): InputField => {
      const name = columnOf(measure);
      const value = cells[name];
      return {
        kind: 'text',
        name,
        label: opening(MEASURE_NAMES[measure]),
        keys: 'decimal',
        unit: reportedUnit(measure),
        ...(value === undefined ? {} : { value }),
      };
    }),
    ...['laboratory', 'method', 'dry_matter_method'].map((name): InputField => {
      const value = cells[name];
      return {
        kind: 'text',
        name,
        label: opening(name.replaceAll('_', ' ')),
        ...(value === undefined ? {} : { value }),
      };
    }),
    { kind: 'date', name: 'reported_on', label: 'Reported on', ...dateOf(cells['reported_on']) },
    reasonField(),
  ];
}

function about({ agreementId, loadId, version, isSettled }: SubjectView): readonly Field[] {
  return [
    { kind: 'hidden', name: 'agreement', value: agreementId },
    { kind: 'hidden', name: 'load', value: loadId },
    { kind: 'hidden', name: 'version', value: String(version) },
    { kind: 'hidden', name: 'settled', value: isSettled ? 'yes' : '' },
  ];
}

function reasonField(): Field {
  return { kind: 'text', name: 'reason', label: 'What was wrong', hint: 'Both sides read it.' };
}

function dateOf(value: string | undefined): { readonly value?: string } {
  return value === undefined ? {} : { value };
}
