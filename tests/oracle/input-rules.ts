/**
 * Holds a generated season to the input rules, in exact fractions: whatever it lists, a product would be
 * right to refuse. It guards the generator; it is no model of the messages.
 */
import { add, compare, divide, type Fraction, hundred, multiply, one, parse, subtract } from './fraction.ts';
import { daysBetween } from './local-date.ts';
import { figuresOf } from './measures.ts';
import { type Agreement, constituents, type OracleSeason, type SampleRow, sampleColumns } from './season.ts';

function repeated(kind: string, keys: string[]): string[] {
  return new Set(keys).size === keys.length ? [] : [`${kind} repeated`];
}

function remainders(agreement: Agreement, sample: SampleRow): string[] {
  const figures = figuresOf(sample, agreement);
  const share = (part: string, grain: string): Fraction => {
    const measure = part === 'grain-equivalent' ? 'starch' : constituents.find((name) => name === part);
    const value = measure === undefined ? undefined : figures.get(measure);
    if (value === undefined) return { n: 0n, d: 1n };
    if (part !== 'grain-equivalent') return divide(value, hundred);
    const grains = divide(value, parse(grain));
    return compare(grains, one) > 0 ? one : grains;
  };
  return agreement.price.flatMap((term) => {
    if (term.term !== 'remainder') return [];
    const grain = agreement.references[term.at.reference]?.starchPercentOfDryMatter ?? '';
    const left = term.after.reduce((rest, part) => subtract(rest, share(part, grain)), one);
    return left.n < 0n ? [`sample ${sample.sample}: negative remainder`] : [];
  });
}

function sampleFaults(agreement: Agreement, sample: SampleRow): string[] {
  const faults: string[] = [];
  const dryMatter = parse(sample.dry_matter);
  const asDryMatter = (cell: string | undefined): Fraction => {
    const value = parse(cell ?? '0');
    return sample.basis === 'as-fed' ? divide(multiply(value, hundred), dryMatter) : value;
  };
  for (const measure of [...constituents, 'dry-matter', 'ammonia-nitrogen'] as const) {
    const value = parse(sample[sampleColumns[measure]] ?? '0');
    if (value.n < 0n || compare(value, hundred) > 0) faults.push(`${measure} outside 0 to 100`);
  }
  for (const measure of constituents)
    if (compare(asDryMatter(sample[sampleColumns[measure]]), hundred) > 0)
      faults.push(`${measure} above 100`);
  if (dryMatter.n <= 0n) faults.push('no dry matter');
  if (compare(add(asDryMatter(sample.starch), asDryMatter(sample.ndf)), hundred) > 0)
    faults.push('starch plus NDF');
  if (sample.ndf !== undefined && compare(asDryMatter(sample.adf), asDryMatter(sample.ndf)) > 0)
    faults.push('ADF above NDF');
  return [...faults.map((fault) => `sample ${sample.sample}: ${fault}`), ...remainders(agreement, sample)];
}

function agreementFaults({ references, price }: Agreement): string[] {
  const faults: string[] = [];
  for (const [name, { rule, series, floor, ceiling }] of Object.entries(references)) {
    if ((rule.kind === 'fixed') !== (series === undefined)) faults.push(`${name}: series`);
    if (floor !== undefined && ceiling !== undefined && compare(parse(floor), parse(ceiling)) > 0)
      faults.push(`${name}: floor above ceiling`);
    if (rule.kind === 'seller-elects' && rule.from > rule.to) faults.push(`${name}: window`);
  }
  for (const term of price) {
    if (term.term === 'limit') {
      const { floor, ceiling } = term;
      if (floor !== undefined && ceiling !== undefined && compare(parse(floor), parse(ceiling)) > 0)
        faults.push(`${term.label}: floor above ceiling`);
    }
    if (term.term === 'schedule') {
      if (compare(parse(term.neutral.from), parse(term.neutral.to)) > 0)
        faults.push(`${term.label}: neutral`);
      for (const steps of [term.above ?? [], term.below ?? []])
        if (steps.slice(0, -1).some((step) => step.points === undefined))
          faults.push(`${term.label}: open step`);
    }
    if (term.term === 'remainder') {
      if (new Set(term.after).size < term.after.length) faults.push(`${term.label}: named twice`);
      for (const pair of [['starch', 'grain-equivalent'] as const, ['ndf', 'adf'] as const])
        if (pair.every((part) => term.after.includes(part))) faults.push(`${term.label}: ${pair}`);
    }
    const parts = term.term === 'remainder' ? term.after : term.term === 'constituent' ? [term.of] : [];
    const perStarch = 'at' in term && 'per' in term.at && term.at.per === 'starch';
    if (parts.includes('grain-equivalent') && term.term === 'constituent' && perStarch)
      faults.push(`${term.label}: grain-equivalent per starch`);
    const needsStarch = perStarch || parts.includes('grain-equivalent');
    const reference = 'at' in term ? references[term.at.reference] : undefined;
    if (needsStarch && reference?.starchPercentOfDryMatter === undefined)
      faults.push(`${term.label}: reference without starch`);
  }
  return faults;
}

/** Every broken rule, in words; none for a valid season. */
export function brokenInputRules(season: OracleSeason): string[] {
  const { agreement, loads, samples, prices, elections, choices } = season;
  const tickets = new Set(loads.map((load) => load.ticket));
  const faults = [
    ...agreementFaults(agreement),
    ...samples.flatMap((sample) => sampleFaults(agreement, sample)),
    ...repeated(
      'ticket',
      loads.map((load) => load.ticket),
    ),
    ...repeated(
      'sample',
      samples.map((sample) => sample.sample),
    ),
    ...repeated(
      'quote',
      prices.map(({ series, date }) => `${date} ${series}`),
    ),
    ...repeated(
      'election',
      elections.map(({ ticket, series }) => `${ticket} ${series}`),
    ),
    ...repeated(
      'choice',
      choices.map((choice) => choice.ticket),
    ),
  ];
  const hauled = agreement.price.some((term) => 'per' in term && (term.per === 'mile' || term.per === 'km'));
  for (const load of loads) {
    if (compare(parse(load.tare), parse(load.gross)) >= 0 || load.tare.startsWith('-'))
      faults.push(`${load.ticket}: tare`);
    if (!/T\d\d:\d\d(:\d\d)?(Z|[+-]\d\d:\d\d)$/.test(load.delivered_at))
      faults.push(`${load.ticket}: offset`);
    if (hauled && load.miles === undefined && load.km === undefined) faults.push(`${load.ticket}: distance`);
  }
  for (const { price } of prices) if (price.startsWith('-')) faults.push('negative price');
  for (const { ticket } of [...elections, ...choices])
    if (!tickets.has(ticket)) faults.push(`${ticket}: unknown`);
  for (const { ticket, series, date } of elections)
    for (const { rule, series: own } of Object.values(agreement.references)) {
      if (rule.kind !== 'seller-elects' || own !== series) continue;
      if (daysBetween(rule.from, date) < 0 || daysBetween(date, rule.to) < 0)
        faults.push(`${ticket}: election outside its window`);
    }
  return faults;
}
