/**
 * The sentences of a story that tell of samples, scales and questions: how a sample was taken and sealed, what was
 * questioned and why, each figure that was reported, what the other side said of it, and how both ended it.
 */
import type { LocalDate } from '../src/domain/dates/local-date.ts';
import { DAY, dated, FIGURE, figure, type Phrase, phrase, type Said, text } from './story-phrase.ts';

/** What a question is about: a measure of a sample, or the weight on a ticket. */
export type Subject =
  | { readonly about: string; readonly sample: string }
  | { readonly about: 'weight'; readonly ticket: string };

/** What was paid for a test, by which party, and the day of the test. */
interface TestPaid {
  readonly testedOn: LocalDate;
  readonly charge: string;
  /** A party's name. */
  readonly payer: string;
}

/** One act; each is one use case, but for time, which passes by itself. */
export type QuestionAct =
  | {
      readonly act: 'record-scale';
      readonly name: string;
      readonly place: string;
      readonly capacity: string;
      readonly division: string;
      readonly testedOn: LocalDate;
    }
  | { readonly act: 'take-sample'; readonly sample: string; readonly takenBy: string; readonly how: string }
  | {
      readonly act: 'seal-sample';
      readonly sample: string;
      /** Of the laboratory's, the seller's, the buyer's and the referee's part, in this order. */
      readonly seals: readonly [first: string, last: string];
      readonly until: LocalDate;
      readonly where: string;
    }
  | {
      readonly act: 'ask-retest';
      readonly subject: Subject;
      readonly claimed: string;
      readonly reason: string;
    }
  | (TestPaid & {
      readonly act: 'report-figure';
      readonly subject: Subject;
      readonly tester: 'laboratory' | 'referee' | 'own';
      readonly testedBy: string;
      readonly value: string;
    })
  | (TestPaid & {
      readonly act: 'report-weighing';
      readonly ticket: string;
      readonly scale: string;
      readonly gross: string;
      readonly tare: string;
    })
  | { readonly act: 'confirm-figure'; readonly subject: Subject; readonly value: string }
  | {
      readonly act: 'contest-figure';
      readonly subject: Subject;
      readonly value: string;
      readonly reason: string;
    }
  | {
      readonly act: 'propose-ending';
      readonly subject: Subject;
      /** The figure to agree on; undefined where the question is withdrawn. */
      readonly value: string | undefined;
      /** A party's name; undefined where both bear half. */
      readonly bearer: string | undefined;
      readonly reason: string;
    }
  | { readonly act: 'agree-ending'; readonly subject: Subject }
  | { readonly act: 'pass-time' };

const SUBJECT = String.raw`(?:(?<about>[a-z]+(?: [a-z]+)?) of sample (?<sample>[^\s,:]+)|the weight of ticket (?<ticket>[^\s,:]+))`;
const PAID = `on (?<day>${DAY}) for (?<charge>${FIGURE}), paid by (?<payer>.+)`;

const TESTERS = {
  'the referee': 'referee',
  'the first laboratory': 'laboratory',
  'its own laboratory': 'own',
} as const;

export const QUESTION_PHRASES: readonly Phrase<QuestionAct>[] = [
  phrase(
    'has the scale Otter Ditch at Cinder Lane, 200,000 lb by 20 lb, tested on 2026-06-15',
    `has the scale (?<name>[^,]+) at (?<place>[^,]+), (?<capacity>${FIGURE}) lb by (?<division>${FIGURE}) lb, tested on (?<day>${DAY})`,
    ({ name, place, capacity, division, day }) =>
      dated(day, (testedOn) => ({
        act: 'record-scale',
        name: text(name),
        place: text(place),
        capacity: figure(capacity),
        division: figure(division),
        testedOn,
      })),
  ),
  phrase(
    'has sample E-1 taken by Wren Alder-Voss: five scoops from each truck, mixed',
    String.raw`has sample (?<sample>[^\s,:]+) taken by (?<takenBy>[^:]+): (?<how>.+)`,
    ({ sample, takenBy, how }) => ({
      act: 'take-sample',
      sample: text(sample),
      takenBy: text(takenBy),
      how: text(how),
    }),
  ),
  phrase(
    'seals sample E-1 in four parts under 4101 to 4104, kept until 2027-01-31: freezer at the scale house',
    String.raw`seals sample (?<sample>[^\s,:]+) in four parts under (?<first>\d+) to (?<last>\d+), kept until (?<day>${DAY}): (?<where>.+)`,
    ({ sample, first, last, day, where }) =>
      dated(day, (until) => ({
        act: 'seal-sample',
        sample: text(sample),
        seals: [text(first), text(last)],
        until,
        where: text(where),
      })),
  ),
  phrase(
    'questions starch of sample E-1 as 53.0: our own test found less',
    `questions ${SUBJECT} as (?<claimed>${FIGURE}): (?<reason>.+)`,
    (said) => ({
      act: 'ask-retest',
      subject: subjectOf(said),
      claimed: figure(said['claimed']),
      reason: text(said['reason']),
    }),
  ),
  phrase(
    'reports 52.80 for starch of sample E-1 by Bell Reach Referees, the referee, on 2026-11-16 for 48.00, paid by Tarn Hollow Dairy',
    `reports (?<value>${FIGURE}) for ${SUBJECT} by (?<testedBy>.+), (?<tester>${Object.keys(TESTERS).join('|')}), ${PAID}`,
    (said) =>
      paidOn(said, (paid) => ({
        act: 'report-figure',
        subject: subjectOf(said),
        tester: TESTERS[said['tester'] as keyof typeof TESTERS],
        testedBy: text(said['testedBy']),
        value: figure(said['value']),
        ...paid,
      })),
  ),
  phrase(
    'reports gross 78,340 and tare 30,440 for ticket 806 by the scale Otter Ditch on 2026-11-06 for 25.00, paid by Tarn Hollow Dairy',
    `reports gross (?<gross>${FIGURE}) and tare (?<tare>${FIGURE}) for ticket (?<ticket>\\S+) by the scale (?<scale>.+) ${PAID}`,
    (said) =>
      paidOn(said, (paid) => ({
        act: 'report-weighing',
        ticket: text(said['ticket']),
        scale: text(said['scale']),
        gross: figure(said['gross']),
        tare: figure(said['tare']),
        ...paid,
      })),
  ),
  phrase(
    'confirms 52.80 for starch of sample E-1',
    `confirms (?<value>${FIGURE}) for ${SUBJECT}`,
    (said) => ({ act: 'confirm-figure', subject: subjectOf(said), value: figure(said['value']) }),
  ),
  phrase(
    'contests 51.32 for starch of sample E-4: the report says 53.12',
    `contests (?<value>${FIGURE}) for ${SUBJECT}: (?<reason>.+)`,
    (said) => ({
      act: 'contest-figure',
      subject: subjectOf(said),
      value: figure(said['value']),
      reason: text(said['reason']),
    }),
  ),
  phrase(
    'proposes to withdraw the question about ndf of sample E-1, costs shared: we read the wrong line',
    `proposes to (?:withdraw the question|agree on (?<value>${FIGURE})) about ${SUBJECT}, costs (?:shared|on (?<bearer>[^:]+)): (?<reason>.+)`,
    (said) => ({
      act: 'propose-ending',
      subject: subjectOf(said),
      value: said['value'] === undefined ? undefined : figure(said['value']),
      bearer: said['bearer'],
      reason: text(said['reason']),
    }),
  ),
  phrase(
    'agrees to end the question about ndf of sample E-1',
    `agrees to end the question about ${SUBJECT}`,
    (said) => ({ act: 'agree-ending', subject: subjectOf(said) }),
  ),
  phrase('lets the time pass', 'lets the time pass', () => ({ act: 'pass-time' })),
];

/** Names as the story says them: "starch of sample E-1", "the weight of ticket 806". */
export function subjectName(subject: Subject): string {
  return 'ticket' in subject
    ? `the weight of ticket ${subject.ticket}`
    : `${subject.about} of sample ${subject.sample}`;
}

function subjectOf({ about, sample, ticket }: Said): Subject {
  return ticket === undefined ? { about: text(about), sample: text(sample) } : { about: 'weight', ticket };
}

function paidOn({ day, charge, payer }: Said, act: (paid: TestPaid) => QuestionAct): QuestionAct | undefined {
  return dated(day, (testedOn) => act({ testedOn, charge: figure(charge), payer: text(payer) }));
}
