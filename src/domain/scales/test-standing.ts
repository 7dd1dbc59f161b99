/**
 * How a scale's test stands on a day: in date, soon due, overdue, or never done as far as anybody recorded. Nothing here
 * reads a clock.
 */
import { daysBetween, type LocalDate } from '../dates/local-date.ts';

/** What is known of a scale's tests. */
export interface Tested {
  readonly testedOn: LocalDate | undefined;
  readonly testDueOn: LocalDate | undefined;
}

export type TestStanding =
  | { readonly is: 'fine'; readonly testedOn: LocalDate; readonly dueOn: LocalDate | undefined }
  | { readonly is: 'due'; readonly testedOn: LocalDate; readonly dueOn: LocalDate; readonly days: number }
  | { readonly is: 'overdue'; readonly testedOn: LocalDate; readonly dueOn: LocalDate; readonly days: number }
  | { readonly is: 'never-tested' };

/** So many days ahead a test counts as due: time to call the tester. Common practice, no source. */
const DUE_SOON_DAYS = 30;

/** The standing on a day. A test may still be made on the day it is due; one made after `on` does not count. */
export function testStanding({ testedOn, testDueOn }: Tested, on: LocalDate): TestStanding {
  if (testedOn === undefined || testedOn > on) return { is: 'never-tested' };
  if (testDueOn === undefined) return { is: 'fine', testedOn, dueOn: undefined };
  const days = daysBetween(on, testDueOn);
  if (days < 0) return { is: 'overdue', testedOn, dueOn: testDueOn, days: -days };
  if (days <= DUE_SOON_DAYS) return { is: 'due', testedOn, dueOn: testDueOn, days };
  return { is: 'fine', testedOn, dueOn: testDueOn };
}

/** The standing on a day by all that was ever recorded of the scale: the newest test that had been made by then. */
export function standingByVersions(versions: readonly Tested[], on: LocalDate): TestStanding {
  const made = versions.filter(({ testedOn }) => testedOn !== undefined && testedOn <= on);
  const newest = made.reduce<Tested | undefined>(
    // Of two versions with the same test, the later one has its dates put right.
    (best, version) => ((best?.testedOn ?? '') <= (version.testedOn ?? '') ? version : best),
    undefined,
  );
  return newest === undefined ? { is: 'never-tested' } : testStanding(newest, on);
}

/** The standing in a sentence. */
export function standingInWords(standing: TestStanding): string {
  switch (standing.is) {
    case 'fine':
      return standing.dueOn === undefined
        ? `Tested on ${standing.testedOn}; no next test is named.`
        : `Tested on ${standing.testedOn}; the next test is due by ${standing.dueOn}.`;
    case 'due':
      return standing.days === 0
        ? `Tested on ${standing.testedOn}; the next test is due on this day.`
        : `Tested on ${standing.testedOn}; the next test is due by ${standing.dueOn}, in ${inDays(standing.days)}.`;
    case 'overdue':
      return `The test of this scale was due by ${standing.dueOn} and is overdue by ${inDays(standing.days)}; it was last tested on ${standing.testedOn}.`;
    case 'never-tested':
      return 'No test of this scale is recorded up to this day.';
  }
}

function inDays(days: number): string {
  return days === 1 ? '1 day' : `${days} days`;
}
