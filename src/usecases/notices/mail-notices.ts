/**
 * Tells a party's owners and bookkeepers by e-mail of what it was told of. A letter holds the notice's sentence and the
 * way to its page: no figure, no term, no message of anybody's.
 */
import { whenText } from '../../domain/dates/instant.ts';
import { giveBack, readNotice, type TakenNotice, takeUnmailed } from '../../store/rows/notice-rows.ts';
import { stamp, type Tools } from '../context.ts';
import { noticeView } from './read-notices.ts';

export interface Mailed {
  /** Letters that the server took. */
  readonly sent: number;
  /** What went wrong, for the log; those notices are tried again with the next. */
  readonly failures: readonly unknown[];
}

/** News that is older says nothing that is not on the page by now. */
const DAYS_TRIED = 2;
const DAY = 86_400_000;
/** After so many failures the server is left alone until the next notice. */
const MOST_FAILURES = 3;

/**
 * Sends what nobody has mailed or seen yet; `address` is where browsers find the program, undefined for letters without a
 * link. Each notice is taken before it is sent, so that no two send it, and given back where that fails: whoever is killed
 * in between loses one letter at most. Without a mailer nothing is sent and nothing is marked.
 */
export async function mailNotices(
  tools: Tools,
  { address }: { readonly address: string | undefined },
): Promise<Mailed> {
  const { mailer, store } = tools;
  const failures: unknown[] = [];
  let sent = 0;
  if (!mailer) return { sent, failures };
  const since = whenText(tools.now() - DAYS_TRIED * DAY);
  const tried: string[] = [];
  while (failures.length < MOST_FAILURES) {
    // Nothing is held while the server is spoken to: a slow one must not make anybody wait.
    const taken = await store.atDoor((tx) => takeUnmailed(tx, { since, now: stamp(tools), except: tried }));
    if (!taken) break;
    tried.push(taken.id);
    try {
      const letter = await letterOf(tools, taken, address);
      if (!letter) continue;
      const rejected = await mailer.send(letter);
      sent++;
      if (rejected.length > 0) failures.push(new Error(`The mail server refused ${rejected.join(', ')}`));
    } catch (error) {
      failures.push(error);
      await store.atDoor((tx) => giveBack(tx, taken.id));
    }
  }
  return { sent, failures };
}

/** Undefined where nobody wants it by e-mail. */
async function letterOf({ store }: Tools, { id, partyId }: TakenNotice, address: string | undefined) {
  const { to, party } = await store.atDoor(async (tx) => {
    const members = await tx.member.findMany({
      where: { partyId, endedAt: null, mail: true, role: { in: ['owner', 'bookkeeper'] } },
      select: { person: { select: { email: true } } },
    });
    const { name } = await tx.party.findUniqueOrThrow({ where: { id: partyId }, select: { name: true } });
    return { to: members.map(({ person }) => person.email), party: name };
  });
  if (to.length === 0) return undefined;
  const row = await store.forParty(partyId, (tx) => readNotice(tx, id));
  const [view] = row ? noticeView(row) : [];
  if (!view) return undefined;
  const link = address === undefined ? '' : `\n\n${address.replace(/\/+$/, '')}${view.path}`;
  const text = `${view.words}${link}\n\nThis goes to the owners and bookkeepers of ${party}. Under “People and sign-ins” you choose whether you get such letters.\n`;
  return { toName: party, to, subject: view.words, text };
}
