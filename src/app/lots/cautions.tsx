/**
 * What can kill where feed is sampled or stored, with the body that publishes the rule.
 */

/** Where tests of stored feed are entered. */
export function SamplingCaution() {
  return (
    <p className="caution">
      Sampling stored feed: stay back from the face, at least three times its height. Take the sample from a
      loader bucket, and never alone (Kansas State University).
    </p>
  );
}

/** Where feed lies in an upright silo. */
export function GasCaution() {
  return (
    <p className="caution">
      Keep out of an upright silo for about three weeks after filling: its gas can kill without being seen,
      most of all from 12 to 60 hours on. Whoever breathed it needs a doctor, even if it seems mild (NIOSH;
      Penn State Extension).
    </p>
  );
}
