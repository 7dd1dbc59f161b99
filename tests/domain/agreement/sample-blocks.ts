/**
 * Blocks of an agreement that are sound, with every key of theirs, for tests to spoil.
 */
export const FULL_CONDITIONS = {
  volume: {
    ...{ amount: '1500', unit: 'short-ton', weight: 'as-fed', tolerancePercent: '10' },
    shortfall: { owedBy: 'seller', from: 'range', rate: '12' },
    surplus: { from: 'amount', percentOfAverage: '5' },
  },
  trueUp: { prices: { from: '2026-09-01', to: '2026-11-30' }, tests: true },
  delivery: {
    from: '2026-09-10',
    to: '2026-10-05',
    place: 'The bunker west of the freestall barn',
    hauledBy: 'seller',
  },
  quality: 'Every kernel broken, no stones',
  weighing: { by: 'buyer', scale: 'The truck scale at the dairy', legalForTrade: true },
  samplingDuty: { by: 'both together', how: 'Five handfuls a load, mixed in a pail' },
  laboratory: {
    name: 'Sedge Lane Laboratory',
    dryMatterMethod: 'Karl Fischer',
    starchMethod: 'enzymatic, ground to 0.5 mm',
  },
  payment: {
    netDays: '14',
    from: 'settlement',
    invoices: 'week',
    issuedBy: 'seller',
    interest: { percentPerYear: '6.5', dayCount: 'actual/360' },
    discount: { percent: '1', withinDays: '5' },
    returnedPaymentFee: '25',
    text: 'By bank transfer.',
  },
  advance: { sharePercent: '80', rate: '62.50', per: 'short-ton', byNewestQuote: true },
  deductions: [
    {
      label: 'Corn checkoff',
      rate: '0.01',
      per: 'bushel',
      weight: 'dry-matter',
      poundsPerBushel: '56',
      payee: 'Cinder Plain Corn Board',
    },
    { label: 'Scale fee', rate: '12', per: 'load' },
  ],
  lienHolders: [{ name: 'Third Furrow Lending' }, { name: 'Harrow Mutual' }],
  buyerStatement: {
    feedsToOwnAnimals: true,
    yearlyVolume: '4000',
    unit: 'short-ton',
    licence: 'needs none, as it feeds all of it',
  },
  governingLaw: 'The law of the state where the feed is delivered',
  notes: 'No deliveries on Sundays',
};

export const FULL_RETEST = {
  askWithinDays: '7',
  keptDays: '30',
  parts: ['laboratory', 'seller', 'buyer', 'referee'],
  referee: 'Bell Reach Referees',
  fee: 'asker-unless-moved',
  measures: {
    'dry-matter': { method: 'referee-stands', tolerance: '0.5' },
    starch: { method: 'closest-two' },
    ndf: { method: 'median' },
    ash: { method: 'iso-5725', repeatability: '1.4', reproducibility: '2.8', test: 'dear' },
    'crude-protein': { method: 'astm-d3244', reproducibility: '2', tie: 'median' },
    weight: { method: 'second-scale', toleranceDivisions: '2' },
  },
};
