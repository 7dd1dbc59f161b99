/**
 * What is asked about a reference price: where its quotes come from, what one unit of the grain holds, which quote counts.
 */
import type { ReferenceRule } from '../../domain/agreement/document.ts';
import { readAt, shownText } from './document-path.ts';
import { RULE_WORDS } from './format-words.ts';
import { optionsOf, type Setting, type SettingGroup } from './setting.ts';

const DAYS = 'days';

/** The settings of one reference, by the rule that it has now. */
export function referenceSettings(reference: unknown, currency: string): readonly SettingGroup[] {
  const unit = shownText(readAt(reference, ['unit'])) || 'unit';
  const kind = readAt(reference, ['rule', 'kind']);
  return [
    {
      heading: 'Which quote counts',
      settings: [
        {
          kind: 'list',
          path: ['rule', 'kind'],
          label: 'The price is',
          options: optionsOf(RULE_WORDS),
          group: (chosen, before) => ruleOf(chosen, before),
        },
        ...ruleSettings(kind, { currency, unit }),
        {
          kind: 'text',
          path: ['series'],
          label: 'Name of the price series',
          hint:
            kind === 'fixed'
              ? 'Not needed for a fixed price.'
              : 'Quotes are recorded under this name, like corn-county-bid.',
        },
      ],
    },
    {
      heading: 'What one unit of it holds',
      settings: [
        { kind: 'text', path: ['unit'], label: 'Quoted per', known: ['bushel', 'cwt', 'short-ton', 'tonne'] },
        { kind: 'figure', path: ['poundsPerUnit'], label: `Weight of one ${unit}`, unit: 'lb' },
        { kind: 'figure', path: ['dryMatterPercent'], label: 'Dry matter in it', unit: '% as-fed' },
        {
          kind: 'figure',
          path: ['starchPercentOfDryMatter'],
          label: 'Starch in its dry matter',
          unit: '%',
          hint: 'Needed where a line pays by starch.',
        },
      ],
    },
    {
      heading: 'What is done to the quote',
      settings: [
        {
          kind: 'figure',
          path: ['basis'],
          label: 'Add to the quote',
          unit: `${currency} per ${unit}`,
          signed: true,
          hint: 'With a minus sign it is taken off.',
        },
        {
          kind: 'figure',
          path: ['floor'],
          label: 'Never less than',
          unit: `${currency} per ${unit}`,
          signed: true,
        },
        {
          kind: 'figure',
          path: ['ceiling'],
          label: 'Never more than',
          unit: `${currency} per ${unit}`,
          signed: true,
        },
      ],
    },
  ];
}

function ruleSettings(
  kind: unknown,
  { currency, unit }: { readonly currency: string; readonly unit: string },
): readonly Setting[] {
  const oldest: Setting = {
    kind: 'figure',
    path: ['rule', 'maxAgeDays'],
    label: kind === 'average' ? 'The newest of them at most' : 'A quote at most',
    unit: `${DAYS} old`,
    hint: 'Empty: of any age.',
  };
  switch (kind) {
    case 'fixed':
      return [{ kind: 'figure', path: ['rule', 'price'], label: 'Price', unit: `${currency} per ${unit}` }];
    case 'delivery-day':
      return [oldest];
    case 'average':
      return [
        { kind: 'figure', path: ['rule', 'quotes'], label: 'Mean of the last', unit: 'quotes' },
        oldest,
      ];
    case 'seller-elects':
      return [
        { kind: 'date', path: ['rule', 'from'], label: 'First date to name' },
        { kind: 'date', path: ['rule', 'to'], label: 'Last date to name' },
        oldest,
        {
          kind: 'tick',
          path: ['rule', 'default'],
          label: 'Where the seller names none, the last date counts',
          ticked: 'window-end',
          hint: 'Otherwise such a load waits.',
        },
      ];
    default:
      return [];
  }
}

const AGED: readonly string[] = ['delivery-day', 'average', 'seller-elects'];

/** A rule of another kind, with what it can keep of the one before. */
export function ruleOf(kind: string, before: unknown): unknown {
  const age = readAt(before, ['maxAgeDays']);
  return {
    kind: kind as ReferenceRule['kind'],
    ...(AGED.includes(kind) && age !== undefined ? { maxAgeDays: age } : {}),
  };
}

/** Dry shelled corn as the trade quotes it: 56 lb a bushel. The figures are a beginning, to be agreed. */
export const EMPTY_REFERENCE: Readonly<Record<string, unknown>> = {
  unit: 'bushel',
  poundsPerUnit: '56',
  dryMatterPercent: '84.5',
  rule: { kind: 'delivery-day' },
};

/** A name that no reference has yet: "corn", then "price 2". */
export function freeReferenceName(references: unknown): string {
  const taken = Object.keys((references ?? {}) as object);
  if (!taken.includes('corn')) return 'corn';
  let number = taken.length + 1;
  while (taken.includes(`price ${number}`)) number++;
  return `price ${number}`;
}

/** "per bushel of 56 lb; the quote of the day of delivery" */
export function referenceSummary(reference: unknown, currency: string): string {
  const at = (key: string) => shownText(readAt(reference, [key]));
  const kind = readAt(reference, ['rule', 'kind']) as ReferenceRule['kind'];
  const price = shownText(readAt(reference, ['rule', 'price']));
  const rule =
    kind === 'fixed'
      ? `fixed at ${price || '…'} ${currency}`
      : ((RULE_WORDS[kind] as string | undefined) ?? '…').replace(/^The/, 'the');
  return `per ${at('unit') || '…'} of ${at('poundsPerUnit') || '…'} lb; ${rule}`;
}
