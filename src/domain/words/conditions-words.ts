/**
 * The conditions of an agreement in words: all that the two parties settle beside the price, by their names.
 * Every figure and text of the block stands in them as it was written.
 */
import type { Conditions } from '../agreement/conditions.ts';
import { asSentence, listed } from './figures-in-words.ts';
import { type Parties, whoIs } from './parties.ts';
import { advanceInWords, deductionsInWords, type PaymentSetting, paymentInWords } from './payment-words.ts';
import { trueUpInWords, volumeRulesInWords } from './season-terms-words.ts';

/** A part of the conditions that has something to say. */
export interface ConditionSection {
  readonly heading: string;
  readonly paragraphs: readonly string[];
}

/** The sections of a well-formed `conditions` block; nothing is said of a part that it leaves out. */
export function conditionsInWords(conditions: Conditions, parties: PaymentSetting): ConditionSection[] {
  const { payment, advance, deductions, volume, trueUp } = conditions;
  const sections: ConditionSection[] = [
    {
      heading: 'How much, when and where',
      paragraphs: [...volumeWords(conditions, parties), ...deliveryWords(conditions, parties)],
    },
    {
      heading: 'If less or more is delivered',
      paragraphs: volume ? volumeRulesInWords(volume, parties) : [],
    },
    {
      heading: 'Priced again once the season is over',
      paragraphs: trueUp ? trueUpInWords(trueUp, parties) : [],
    },
    { heading: 'Quality', paragraphs: textWords(conditions.quality) },
    {
      heading: 'Weighing and sampling',
      paragraphs: [...weighingWords(conditions, parties), ...samplingWords(conditions, parties)],
    },
    { heading: 'Laboratory and methods', paragraphs: laboratoryWords(conditions) },
    { heading: 'Payment', paragraphs: payment ? paymentInWords(payment, parties) : [] },
    { heading: 'Advances', paragraphs: advance ? advanceInWords(advance, parties) : [] },
    { heading: 'Deductions', paragraphs: deductions ? deductionsInWords(deductions, parties) : [] },
    { heading: 'Lenders who are joint payees', paragraphs: lienWords(conditions, parties) },
    { heading: 'What the buyer states', paragraphs: statementWords(conditions, parties) },
    { heading: 'Governing law', paragraphs: textWords(conditions.governingLaw) },
    { heading: 'Other conditions', paragraphs: textWords(conditions.notes) },
  ];
  return sections.filter(({ paragraphs }) => paragraphs.length > 0);
}

const TONS = { 'short-ton': 'short tons', tonne: 'tonnes' } as const;
const WEIGHTS = { 'as-fed': 'as-fed', 'dry-matter': 'of dry matter' } as const;

function textWords(text: string | undefined): string[] {
  return text === undefined ? [] : [asSentence(text)];
}

function volumeWords({ volume }: Conditions, { seller, buyer }: Parties): string[] {
  if (!volume) return [];
  const amount = `${volume.amount} ${TONS[volume.unit]} ${WEIGHTS[volume.weight]}`;
  const tolerance =
    volume.tolerancePercent === undefined
      ? ''
      : `, where up to ${volume.tolerancePercent} % more or less keeps the agreement`;
  return [`${seller} commits to deliver and ${buyer} to take ${amount}${tolerance}.`];
}

function deliveryWords({ delivery }: Conditions, parties: Parties): string[] {
  if (!delivery) return [];
  const { from, to, place, hauledBy } = delivery;
  return [
    ...(from !== undefined && to !== undefined
      ? [`Loads are delivered from ${from} to ${to}, both days included.`]
      : []),
    ...(from !== undefined && to === undefined ? [`Loads are delivered from ${from} on.`] : []),
    ...(from === undefined && to !== undefined ? [`Loads are delivered by ${to}, that day included.`] : []),
    ...(place === undefined ? [] : [`Place of delivery: ${asSentence(place)}`]),
    ...(hauledBy === undefined ? [] : [`${whoIs(hauledBy, parties)} hauls.`]),
  ];
}

function weighingWords({ weighing }: Conditions, parties: Parties): string[] {
  if (!weighing) return [];
  const { by, scale, legalForTrade } = weighing;
  return [
    ...(by === undefined ? [] : [`Trucks are weighed by ${asSentence(whoIs(by, parties))}`]),
    ...(scale === undefined ? [] : [`Scale: ${asSentence(scale)}`]),
    ...(legalForTrade === undefined
      ? []
      : [
          legalForTrade
            ? 'The scale must be legal for trade: of an approved type, tested and in date.'
            : 'The scale need not be legal for trade. Both sides take its weights as they are.',
        ]),
  ];
}

/** Kansas State University Research and Extension on silage safety, read. */
const FACE_CAUTION =
  'Never take a sample at the face of a silo or pile, or alone: stay back at least three times its height, and sample from a loader bucket (Kansas State University).';

function samplingWords({ samplingDuty }: Conditions, parties: Parties): string[] {
  if (!samplingDuty) return [];
  const { by, how } = samplingDuty;
  return [
    ...(by === undefined ? [] : [`Samples are taken by ${asSentence(whoIs(by, parties))}`]),
    ...(how === undefined ? [] : [`How they are taken: ${asSentence(how)}`]),
    FACE_CAUTION,
  ];
}

/** That ovens drive off acids and alcohol with the water: common practice, no source. */
const METHODS_DIFFER =
  'On wet fermented corn the method moves the figure: an oven drives off acids and alcohol with the water and shows less dry matter, and ways of finding starch differ too. That is why this agreement names the method, which is the same for all loads.';
const NO_METHOD_NAMED =
  'No method is named for dry matter or starch. On wet fermented corn the method moves the figure, so both sides should name one.';

function laboratoryWords({ laboratory }: Conditions): string[] {
  if (!laboratory) return [];
  const { name, dryMatterMethod, starchMethod } = laboratory;
  const named = dryMatterMethod !== undefined || starchMethod !== undefined;
  return [
    ...(name === undefined ? [] : [`Samples go to the laboratory ${asSentence(name)}`]),
    ...(dryMatterMethod === undefined ? [] : [`Dry matter is found so: ${asSentence(dryMatterMethod)}`]),
    ...(starchMethod === undefined ? [] : [`Starch is found so: ${asSentence(starchMethod)}`]),
    named ? METHODS_DIFFER : NO_METHOD_NAMED,
  ];
}

function lienWords({ lienHolders }: Conditions, { seller, buyer }: Parties): string[] {
  if (!lienHolders) return [];
  const names = listed(lienHolders.map(({ name }) => name));
  const [have, are] = lienHolders.length === 1 ? ['has', 'is a joint payee'] : ['have', 'are joint payees'];
  return [
    `${names} ${have} or may have a lien on the feed and ${are}: ${buyer} makes each payment out to ${seller} and to ${names} together.`,
  ];
}

function statementWords({ buyerStatement }: Conditions, { buyer }: Parties): string[] {
  if (!buyerStatement) return [];
  const { feedsToOwnAnimals, yearlyVolume, unit, licence } = buyerStatement;
  return [
    ...(feedsToOwnAnimals === undefined
      ? []
      : [
          feedsToOwnAnimals
            ? `${buyer} states that it buys this feed for its own animals and sells none of it on.`
            : `${buyer} states that it does not buy this feed for its own animals alone.`,
        ]),
    ...(yearlyVolume === undefined || unit === undefined
      ? []
      : [`${buyer} states that it buys about ${yearlyVolume} ${TONS[unit]} of such feed a year.`]),
    ...(licence === undefined ? [] : [`On a licence to deal, ${buyer} states: ${asSentence(licence)}`]),
  ];
}
