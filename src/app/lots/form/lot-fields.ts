/**
 * The fields in which a seller says what there is to sell. Names are the paths of the lot's document, so that a fault of
 * the document finds its field.
 */
import { type LotDocument, STORAGE_NAMES, STORAGES } from '../../../domain/lots/lot-document.ts';
import type { LotView } from '../../../usecases/lots/read-lot-view.ts';
import type { Draft } from '../../builder/document-path.ts';
import type { Field, InputField } from '../../forms/field.ts';
import { opening } from '../../place/sentence.ts';
import { testFields } from './test-fields.ts';

export interface LotFieldsGiven {
  /** What is known of the lot already. */
  readonly lot: Partial<Omit<LotDocument, 'asking'>> &
    Pick<LotDocument, 'feed' | 'currency' | 'timeZone' | 'ton'>;
  /** The formula to start from, with stand-ins for the names. */
  readonly asking: Draft;
  /** What it is compared with. */
  readonly previous?: Draft;
  readonly address: string;
  readonly files: LotView['files'];
  readonly lotTests: LotView['lotTests'];
  readonly quotes: Readonly<Record<string, string>>;
  readonly locale: string;
}

export function lotFields(given: LotFieldsGiven): readonly Field[] {
  const { lot, asking, previous, address, files, lotTests, quotes, locale } = given;
  const tons = lot.ton === 'tonne' ? 'tonnes' : 'short tons';
  const hidden = (name: 'feed' | 'currency' | 'timeZone' | 'ton'): Field => ({
    kind: 'hidden',
    name,
    value: lot[name],
  });
  return [
    hidden('feed'),
    hidden('currency'),
    hidden('timeZone'),
    hidden('ton'),
    {
      kind: 'row',
      fields: [
        figure('wetTons', 'Amount, wet', { value: lot.wetTons, unit: tons }),
        figure('dryTons', 'Amount, dry', { value: lot.dryTons, unit: tons, optional: true }),
      ],
    },
    {
      kind: 'choice',
      name: 'storage',
      label: 'Where it is kept',
      ...withValue(lot.storage),
      options: STORAGES.map((value) => ({ value, label: opening(STORAGE_NAMES[value]) })),
    },
    {
      kind: 'row',
      fields: [
        { kind: 'date', name: 'harvest.from', label: 'Harvest from', ...withValue(lot.harvest?.from) },
        { kind: 'date', name: 'harvest.to', label: 'Harvest to', ...withValue(lot.harvest?.to) },
      ],
    },
    {
      kind: 'row',
      fields: [
        figure('moisture.from', 'Expected moisture, driest', { value: lot.moisture?.from, unit: '%' }),
        figure('moisture.to', 'Expected moisture, wettest', { value: lot.moisture?.to, unit: '%' }),
      ],
    },
    ...testFields(lot.tests ?? [], files),
    {
      kind: 'more',
      summary: 'Processing, particle size, inoculant',
      fields: [
        words('processing', 'Processing', {
          value: lot.processing,
          optional: true,
          hint: 'Like: ground at harvest, 3 mm rolls.',
        }),
        figure('particleSize', 'Particle size, geometric mean', {
          value: lot.particleSize,
          unit: 'µm',
          optional: true,
        }),
        words('inoculant', 'Inoculant', { value: lot.inoculant, optional: true }),
      ],
    },
    words('region', 'Region', {
      value: lot.region,
      hint: 'A valley, a county, the nearest town: everyone who sees the lot reads it.',
    }),
    {
      kind: 'more',
      summary: 'For distances: about where it lies',
      fields: [
        words('place.latitude', 'Degrees north, to one decimal', {
          value: lot.place?.latitude,
          optional: true,
          hint: 'Like 43.6. One decimal is some 7 miles: no yard is told by it.',
        }),
        words('place.longitude', 'Degrees east, to one decimal', {
          value: lot.place?.longitude,
          optional: true,
          hint: 'Like -116.2. West of Greenwich, as in America, with a minus sign.',
        }),
      ],
    },
    words('address', 'Address', {
      value: address,
      optional: true,
      hint: 'Only you see it, until you and a buyer have both signed; then that buyer does, too.',
    }),
    {
      kind: 'choice',
      name: 'hauledBy',
      label: 'Who hauls it',
      ...withValue(lot.hauledBy),
      options: [
        { value: 'seller', label: 'We do' },
        { value: 'buyer', label: 'The buyer does' },
      ],
    },
    words('weighedBy', 'Who weighs it', {
      value: lot.weighedBy,
      hint: 'Like: the buyer’s scale, or the elevator’s in town.',
    }),
    {
      kind: 'date',
      name: 'until',
      label: 'Offered until the end of',
      hint: 'After that day nobody can make an offer.',
      ...withValue(lot.until),
    },
    words('notes', 'Anything else', { value: lot.notes, optional: true }),
    {
      kind: 'formula',
      name: 'asking',
      label: 'What you ask',
      hint: 'The formula that you would take. Buyers answer it with offers of their own; it binds nobody.',
      draft: asking,
      ...(previous ? { previous } : {}),
      lotTests,
      fixed: ['id', 'seller', 'buyer', 'feed', 'currency', 'timeZone'],
      quotes,
      locale,
    },
  ];
}

interface Saying {
  readonly value: string | undefined;
  readonly hint?: string;
  readonly unit?: string;
  readonly optional?: boolean;
}

function withValue(value: string | undefined): { readonly value?: string } {
  return value === undefined ? {} : { value };
}

function words(name: string, label: string, { value, ...rest }: Saying): InputField {
  return { kind: 'text', name, label, ...rest, ...withValue(value) };
}

function figure(name: string, label: string, saying: Saying): InputField {
  return { ...words(name, label, saying), keys: 'decimal' } as InputField;
}
