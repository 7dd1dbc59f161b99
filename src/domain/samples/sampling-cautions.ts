/**
 * What whoever takes a sample must know before going near the feed, with the body that publishes the rule.
 */

export interface SamplingCaution {
  readonly words: string;
  /** Who publishes it. */
  readonly body: string;
}

export const SAMPLING_CAUTIONS: readonly SamplingCaution[] = [
  {
    words:
      'Stay back from a face of silage by three times its height. Have a loader dig feed from it, and take the sample from the bucket, away from the face. Never go alone.',
    body: 'Kansas State University, on silage safety',
  },
  {
    words:
      'Keep out of and away from a silo for three weeks after filling: its gas is worst in the first three days and may be invisible. Whoever breathed it needs a doctor, even if it seems mild.',
    body: 'NIOSH, Penn State and Michigan State University, on silo gas',
  },
];
