/**
 * What can kill where stored feed is measured, with the body that publishes the rule.
 */
import { GasCaution } from '../../../lots/cautions.tsx';

export function SiloCautions() {
  return (
    <>
      <p className="caution">
        Never measure at or under a face of silage: it falls without a warning. Stay back by at least three
        times its height, never go alone, and weigh what a loader takes out instead where you can (Kansas
        State University). Local rules on silos and on working in them come first.
      </p>
      <GasCaution />
    </>
  );
}
