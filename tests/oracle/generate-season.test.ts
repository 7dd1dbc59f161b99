/**
 * Three hundred seasons: none breaks an input rule, all settle without a throw, and between them they
 * hold every status, reason, term, rule, option and unit, with ties of both signs.
 */
import { expect, test } from 'vitest';
import { isTie } from './fraction.ts';
import { generateSeason } from './generate-season.ts';
import { brokenInputRules } from './input-rules.ts';
import { settleByOracle } from './oracle.ts';
import { currencyDecimals, type OracleSeason, type Term } from './season.ts';
import { seasonFiles } from './season-files.ts';

type Count = (what: string) => void;

function countTerm(count: Count, term: Term, agreement: OracleSeason['agreement']): void {
  count(`term ${term.term}`);
  if ('per' in term) count(`per ${term.per} ${term.weight ?? ''}`.trim());
  if ('at' in term && 'per' in term.at) count(`price per ${term.at.per}`);
  if ('at' in term) count(`priced by ${agreement.references[term.at.reference]?.rule.kind}`);
  if (term.term === 'constituent') count(`of ${term.of}`);
  if (term.term === 'remainder') for (const part of term.after) count(`after ${part}`);
  if (term.term === 'limit') for (const end of ['floor', 'ceiling'] as const) if (end in term) count(end);
  if (term.term === 'equivalent-bushels') {
    const { method } = term;
    count(`method ${method.kind}`);
    if (method.kind === 'table') count(`between ${method.between}, drier ${method.drier ?? 'none'}`);
    if (term.bushelDecimals !== undefined) count('bushelDecimals');
  }
  if (term.term === 'schedule') {
    count(`on ${term.on}`);
    count(`count ${term.count}, ${term.unit}`);
    for (const side of ['above', 'below'] as const)
      if (term[side] !== undefined)
        count(`${side}, ${term[side].at(-1)?.points === undefined ? 'open' : 'closed'}`);
  }
}

function countSeason(count: Count, season: OracleSeason): void {
  const { agreement } = season;
  for (const term of agreement.price) countTerm(count, term, agreement);
  count(`feed ${agreement.feed}`);
  count(`rounding ${agreement.rounding ?? 'absent'}`);
  count(`plan ${agreement.sampling?.plan ?? 'absent'}`);
  count(`tests ${agreement.tests === undefined ? 'absent' : 'present'}`);
  for (const sample of season.samples) count(`basis ${sample.basis}`);
  for (const load of season.loads) count(`weighed in ${load.unit}`);
  for (const { choice } of season.choices) count(choice);
  const decimals = currencyDecimals.get(agreement.currency) ?? 0;
  count(`decimals ${decimals}`);
  for (const load of settleByOracle(season).loads) {
    count(load.status === 'waiting' ? `waiting ${load.reason}` : load.status);
    for (const line of load.status === 'settled' ? load.lines : []) {
      count(`line ${line.unit === agreement.currency ? 'currency' : line.unit}`);
      if (isTie(line.exact, decimals))
        count(`tie ${line.exact.n < 0n ? 'below' : 'above'} zero, ${agreement.rounding ?? 'half-up'}`);
    }
  }
}

const expected = `
settled; refused; waiting no-result; waiting choice-needed; waiting refusal-contested; waiting no-quote
waiting not-elected; waiting month-open; waiting outside-table; accept; refuse
term constituent; term remainder; term equivalent-bushels; term flat; term schedule; term limit; floor; ceiling
priced by fixed; priced by delivery-day; priced by average; priced by month-average; priced by seller-elects
per short-ton as-fed; per short-ton dry-matter; per tonne as-fed; per tonne dry-matter; per cwt as-fed
per cwt dry-matter; per lb as-fed; per lb dry-matter; per kg as-fed; per kg dry-matter; per load; per mile; per km
price per dry-matter; price per starch; of grain-equivalent; of dry-matter; of starch; of ndf; of adf
of crude-protein; of crude-fat; of ash; after grain-equivalent; after starch; after ndf; after adf; after ash
method dry-matter; method shrink; method table; between linear, drier none; between linear, drier first-row
between next-wetter, drier none; between next-wetter, drier first-row; bushelDecimals
on starch; on ndf; on adf; on moisture; on dry-matter; on crude-protein; on crude-fat; on ash; on ph
on ammonia-nitrogen; on particle-size; on aflatoxin; on vomitoxin
count exact, money; count completed, money; count started, money; count exact, percent; count completed, percent
count started, percent; above, open; above, closed; below, open; below, closed
feed whole-ear-corn; feed high-moisture-ear-corn; feed high-moisture-shelled-corn; feed corn-silage
feed dry-shelled-corn; rounding half-up; rounding half-even; rounding absent; tests present; tests absent
plan per-load; plan composite; plan per-day; plan absent; basis as-fed; basis dry-matter
weighed in lb; weighed in kg; weighed in tonne; weighed in short-ton; decimals 0; decimals 2; decimals 3
line lb; line bushel; line short-ton; line tonne; line cwt; line kg; line load; line mile; line km; line currency
tie above zero, half-up; tie below zero, half-up; tie above zero, half-even; tie below zero, half-even
`;

test('300 seasons hold everything', () => {
  const counts = new Map<string, number>();
  const count: Count = (what) => counts.set(what, (counts.get(what) ?? 0) + 1);
  for (let seed = 1; seed <= 300; seed += 1) {
    const season = generateSeason(seed);
    expect(brokenInputRules(season), `seed ${seed}`).toEqual([]);
    countSeason(count, season);
  }
  const missing = expected.split(/[;\n]/).map((what) => what.trim());
  expect(missing.filter((what) => what !== '' && !counts.has(what))).toEqual([]);
});

test('a seed gives the same season and files again', () => {
  expect(generateSeason(7)).toEqual(generateSeason(7));
  expect(seasonFiles(generateSeason(7), 1)).toEqual(seasonFiles(generateSeason(7), 1));
  expect(generateSeason(7, { loads: 200 }).loads).toHaveLength(200);
});

test('files leave out what is empty and name the columns that hold something', () => {
  const season = { ...generateSeason(3), prices: [], elections: [], choices: [] };
  const files = seasonFiles(season, 5);
  expect(JSON.parse(files['agreement.json'])).toEqual(season.agreement);
  expect(Object.keys(files).sort()).toEqual(['agreement.json', 'loads.csv', 'samples.csv']);
  for (const name of ['ticket', 'delivered_at', 'gross', 'tare', 'unit'])
    expect(files['loads.csv']).toContain(name);
});
