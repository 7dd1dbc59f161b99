/**
 * What a party is told of and what waits for its act, in sentences; and the same by e-mail, over a real SMTP server on
 * this machine (the package smtp-server, by the makers of nodemailer).
 */
import type { AddressInfo } from 'node:net';
import { SMTPServer } from 'smtp-server';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { smtpMailer } from '../../src/mail/smtp-mailer.ts';
import { proposeDraft } from '../../src/usecases/advice/propose-draft.ts';
import { writeNote } from '../../src/usecases/advice/write-note.ts';
import type { Context, Tools } from '../../src/usecases/context.ts';
import { mailNotices } from '../../src/usecases/notices/mail-notices.ts';
import { readActions } from '../../src/usecases/notices/read-actions.ts';
import { countNews, markSeen, readNotices } from '../../src/usecases/notices/read-notices.ts';
import { counterOffer } from '../../src/usecases/offers/counter-offer.ts';
import { endOffer } from '../../src/usecases/offers/end-offer.ts';
import { makeOffer } from '../../src/usecases/offers/make-offer.ts';
import { proposeAmendment, proposeClosing } from '../../src/usecases/offers/propose-amendment.ts';
import { changePassword, hasPassword } from '../../src/usecases/people/change-password.ts';
import { chooseMail, readMailChoice } from '../../src/usecases/people/choose-mail.ts';
import { inviteMember } from '../../src/usecases/people/invite.ts';
import { joinParty } from '../../src/usecases/people/join-party.ts';
import { readSession } from '../../src/usecases/people/read-session.ts';
import { signIn, signInByProvider } from '../../src/usecases/people/sign-in.ts';
import type { RefusalCode } from '../../src/usecases/refusal.ts';
import { acceptShare } from '../../src/usecases/sharing/accept-share.ts';
import { askAdviser } from '../../src/usecases/sharing/ask-adviser.ts';
import { newParty, openTestRecord, type TestRecord } from '../store/test-record.ts';
import { agreed, newSigner, offered, PASSWORD, postedLot, signNewest, TERMS } from './bargain.ts';

const SELLER = 'Quillback Acres';
const DAIRY = 'Tarn Hollow Dairy';
const DAY = 86_400_000;

let record: TestRecord;
let seller: Context;
let dairy: Context;
beforeAll(async () => {
  record = await openTestRecord();
});
afterAll(() => record.close());
// Each test has parties of its own, whose lots begin at 1.
beforeEach(async () => {
  seller = await newSigner(record.tools, SELLER);
  dairy = await newSigner(record.tools, DAIRY);
});

async function refused(work: Promise<unknown>): Promise<RefusalCode> {
  return await work.then(
    () => {
      throw new Error('was not refused');
    },
    (error: { code: RefusalCode }) => error.code,
  );
}

const later = <Who extends Tools>(who: Who, days: number): Who => {
  const { now } = who;
  return { ...who, now: () => now() + days * DAY };
};
const words = async (context: Context) => (await readNotices(context)).unseen.map((notice) => notice.words);
const acts = async (context: Context) =>
  (await readActions(context, { locale: 'en-US' })).map((action) => action.words);
const as = (context: Context, role: 'bookkeeper' | 'viewer'): Context => ({
  ...context,
  caller: { ...context.caller, role },
});

describe('what a party is told of', () => {
  test('names the other party, leads to the page, and is marked for the whole party', async () => {
    const lotId = await postedLot(seller);
    const offerId = await offered(dairy, lotId);
    const { unseen } = await readNotices(seller);
    expect(unseen).toMatchObject([
      { words: `${DAIRY} made an offer on your lot.`, path: `/offers/${offerId}` },
    ]);
    await counterOffer(seller, { offerId, baseVersion: 1, document: TERMS, validDays: '3' });
    await endOffer(seller, { offerId });
    expect(await words(dairy)).toEqual([
      `${SELLER} withdrew the offer.`,
      `${SELLER} sent a new version of the offer.`,
    ]);
    expect(await countNews(seller)).toBe(1);
    expect(await refused(markSeen(as(seller, 'viewer'), { noticeIds: [] }))).toBe('not-allowed');
    // Nobody marks another party's.
    const noticeIds = unseen.map(({ id }) => id);
    expect(await markSeen(dairy, { noticeIds })).toEqual({ marked: 0 });
    expect(await markSeen(as(seller, 'bookkeeper'), { noticeIds: [...noticeIds, 'none'] })).toEqual({
      marked: 1,
    });
    expect(await countNews(seller)).toBe(0);
    expect(await readNotices(seller)).toMatchObject({ unseen: [], seen: [{ id: noticeIds[0] }] });
  });

  test('does not say who the other buyer is', async () => {
    const rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
    const lotId = await postedLot(seller);
    const [won, lost] = [await offered(dairy, lotId), await offered(rival, lotId)];
    await signNewest(dairy, won, DAIRY);
    await signNewest(seller, won, SELLER);
    expect(await readNotices(rival)).toMatchObject({
      unseen: [
        { words: `The lot of ${SELLER} went to another buyer. Your offer is over.`, path: `/offers/${lost}` },
      ],
    });
    expect(await words(dairy)).toEqual([`You and ${SELLER} have both signed: the agreement stands.`]);
  });
});

describe('what waits for a party’s act', () => {
  test('is an offer whose turn is theirs, until a day in the zone of its terms', async () => {
    // The test's clock begins at noon in UTC on 25 November 2026; seven days on it is 2 December in Boise, too.
    const lotId = await postedLot(seller);
    const offerId = await offered(dairy, lotId);
    expect(await acts(seller)).toEqual([
      `${DAIRY}’s offer on lot 1 waits for your answer; it stands until 2 December.`,
    ]);
    expect(await acts(dairy)).toEqual([]);
    expect(await readActions(seller, { locale: 'en-US' })).toMatchObject([
      { kind: 'offer', path: `/offers/${offerId}` },
    ]);
    await counterOffer(seller, { offerId, baseVersion: 1, document: TERMS, validDays: '40' });
    expect(await acts(seller)).toEqual([]);
    expect(await acts(dairy)).toEqual([
      `${SELLER}’s new version of the offer on lot 1 waits for your answer; it stands until 4 January 2027.`,
    ]);
    await signNewest(seller, offerId, SELLER);
    expect(await acts(dairy)).toEqual([
      `${SELLER} signed the offer on lot 1. It waits for your signature until 4 January 2027.`,
    ]);
    await signNewest(dairy, offerId, DAIRY);
    expect([...(await acts(dairy)), ...(await acts(seller))]).toEqual([]);
  });

  test('is one’s own offer that nobody answered in time, and a lot whose time is over', async () => {
    const lotId = await postedLot(seller);
    await makeOffer(dairy, { lotId, document: TERMS, validDays: '2' });
    expect(await acts(later(dairy, 3))).toEqual([
      `Your offer to ${SELLER} on lot 1 stood until 27 November, and nobody answered. Send it again with more time, or withdraw it.`,
    ]);
    expect(await acts(later(seller, 3))).toEqual([]);
    expect(await acts(later(seller, 30))).toEqual([
      'Lot 1 was for sale until 20 December, and one offer on it is open. Give it a later last day, or withdraw it.',
    ]);
    const rival = await newSigner(record.tools, 'Sorrel Bend Dairy');
    await offered(rival, lotId);
    const [over] = await readActions(later(seller, 30), { locale: 'en-US' });
    expect(over?.words).toContain('and 2 offers on it are open');
    expect(over?.path).toBe(`/lots/${lotId}`);
  });

  test('is an amendment or an early end, oldest first, and a draft until its notice is marked', async () => {
    const agreementId = await agreed({ seller: [seller, SELLER], buyer: [dairy, DAIRY] });
    const amendment = { agreementId, document: TERMS, effectiveFrom: '2026-12-01', validDays: '5' };
    const { offerId } = await proposeAmendment(seller, amendment);
    const [waits] = await acts(dairy);
    expect(waits).toMatch(
      /^Quillback Acres’s proposal to amend agreement L1-[0-9A-F]{4} waits for your answer; it stands until 30 November\.$/,
    );
    await signNewest(seller, offerId, SELLER);
    expect((await acts(dairy))[0]).toMatch(/^Quillback Acres signed the amendment of agreement L1-/);
    await endOffer(dairy, { offerId });
    const closing = { agreementId, lastDelivery: '2026-12-10', validDays: '5' };
    await proposeClosing(dairy, closing);
    await offered(dairy, await postedLot(seller));
    const waiting = await acts(seller);
    expect(waiting).toHaveLength(2);
    expect(waiting[0]).toMatch(/proposal to close agreement L1-[0-9A-F]{4} early waits/);
    expect(waiting[1]).toMatch(/offer on lot 2 waits/);

    const practice = await newSigner(record.tools, 'Row and Husk Advice');
    const come = await acceptShare(practice, await askAdviser(dairy, { agreementId }));
    const adviceId = come.adviceId ?? '';
    await proposeDraft(practice, { adviceId, document: TERMS });
    expect((await acts(dairy))[0]).toMatch(/^Row and Husk Advice drafted terms for agreement L1-/);
    await markSeen(dairy, { noticeIds: (await readNotices(dairy)).unseen.map(({ id }) => id) });
    expect(await acts(dairy)).toEqual([]);
    // An adviser has nothing to answer.
    expect(await acts(practice)).toEqual([]);
  });
});

interface Arrived {
  readonly to: readonly string[];
  readonly text: string;
}

describe('by e-mail', () => {
  const arrived: Arrived[] = [];
  let isDown = false;
  let server: SMTPServer;
  let mailing: Tools;
  const address = 'https://ledger.example';
  const FROM = 'ledger@farm.example';
  let smtp: string;

  beforeAll(async () => {
    server = new SMTPServer({
      authOptional: true,
      disabledCommands: ['STARTTLS'],
      onRcptTo: (_, _session, done) => done(isDown ? new Error('busy') : null),
      onData: (stream, session, done) => {
        const parts: Buffer[] = [];
        stream.on('data', (part: Buffer) => parts.push(part));
        stream.on('end', () => {
          const to = session.envelope.rcptTo.map((rcpt) => rcpt.address);
          arrived.push({ to, text: readable(Buffer.concat(parts).toString('utf8')) });
          done();
        });
      },
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    smtp = `smtp://127.0.0.1:${(server.server.address() as AddressInfo).port}`;
  });
  afterAll(() => new Promise<void>((resolve) => server.close(() => resolve())));
  beforeEach(async () => {
    const client = await record.superuser();
    await client.query('UPDATE notice SET mailed_at = now()');
    await client.end();
    arrived.length = 0;
    isDown = false;
    mailing = { ...record.tools, mailer: smtpMailer({ server: smtp, from: FROM }) };
  });

  /** A letter without what its transfer encoding puts in: quoted-printable, RFC 2045 section 6.7. */
  function readable(raw: string): string {
    const joined = raw.replace(/=\r?\n/g, '').replace(/\r?\n[ \t]/g, ' ');
    const bytes = joined.replace(/((?:=[0-9A-F]{2})+)/g, (hex) =>
      Buffer.from(hex.replaceAll('=', ''), 'hex').toString('utf8'),
    );
    return bytes.replaceAll('\r\n', '\n');
  }

  /** What was written, without what programs number letters and rows by. */
  const content = (text: string) =>
    text.replace(/[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}/g, '').replace(/^(Date|Message-ID):.*$/gm, '');
  const emailOf = async (personId: string) =>
    (await record.tools.store.atDoor((tx) => tx.person.findUniqueOrThrow({ where: { id: personId } }))).email;
  const send = () => mailNotices(mailing, { address });

  /** Somebody more in a party, with a role. */
  async function joined(owner: Context, role: 'bookkeeper' | 'scale-operator' | 'viewer'): Promise<Context> {
    const { secret } = await inviteMember(owner, { role });
    const given = { name: role, email: `${role}@dairy.example`, password: PASSWORD, address: '192.0.2.9' };
    const { personId, partyId } = await joinParty(record.tools, { ...given, secret });
    return { ...record.tools, caller: { personId, partyId, role } };
  }

  test('goes to the owners and bookkeepers who want it, without a figure, a term or a message', async () => {
    const lotId = await postedLot(seller);
    const price = [{ term: 'flat', label: 'All', rate: '61.37', per: 'short-ton', weight: 'as-fed' }];
    const message = 'Between us: the neighbour pays 58.';
    const { offerId } = await makeOffer(dairy, {
      lotId,
      document: { ...TERMS, price },
      message,
      validDays: '7',
    });
    const clerk = await joined(dairy, 'bookkeeper');
    await joined(dairy, 'scale-operator');
    await joined(dairy, 'viewer');
    await counterOffer(seller, {
      offerId,
      baseVersion: 1,
      document: { ...TERMS, price },
      message,
      validDays: '7',
    });
    expect(await send()).toEqual({ sent: 2, failures: [] });
    const [toSeller, toDairy] = arrived;
    expect(toSeller?.to).toEqual([await emailOf(seller.caller.personId)]);
    expect([...(toDairy?.to ?? [])].sort()).toEqual(
      [await emailOf(dairy.caller.personId), 'bookkeeper@dairy.example'].sort(),
    );
    expect(toSeller?.text).toContain(`Subject: ${DAIRY} made an offer on your lot.`);
    expect(toSeller?.text).toContain(`${address}/offers/${offerId}\n`);
    expect(toDairy?.text).toContain(`${SELLER} sent a new version of the offer.`);
    for (const { text } of arrived) {
      expect(content(text)).not.toMatch(/61\.37|58|neighbour|short-ton|flat|lot 1|2 December/);
      // Nobody's address stands in the letter itself: the members are not shown to one another.
      expect(text).not.toMatch(/@dairy\.example|@example\.org/);
      expect(text).toContain(`From: Huskledger <${FROM}>`);
    }
    // What one of them chose is theirs alone.
    expect(await readMailChoice(clerk)).toBe(true);
    await chooseMail(clerk, { wanted: false });
    expect(await readMailChoice(clerk)).toBe(false);
    await endOffer(seller, { offerId });
    await send();
    expect(arrived.at(-1)?.to).toEqual([await emailOf(dairy.caller.personId)]);
    await chooseMail(dairy, { wanted: false });
    await offered(dairy, lotId);
    const { unseen } = await readNotices(seller);
    await endOffer(seller, { offerId: unseen[0]?.path.split('/').at(-1) ?? '' });
    const before = arrived.length;
    // To the seller, of the new offer; nobody of the dairy wants to hear of its end.
    expect(await send()).toEqual({ sent: 1, failures: [] });
    expect(arrived).toHaveLength(before + 1);
  });

  test('a note or a draft of an adviser is told without its words', async () => {
    const practice = await newSigner(record.tools, 'Row and Husk Advice');
    const offerId = await offered(dairy, await postedLot(seller));
    await send();
    const { adviceId } = await acceptShare(practice, await askAdviser(dairy, { offerId }));
    await writeNote(practice, { adviceId: adviceId ?? '', text: 'Never above 59 a ton.' });
    arrived.length = 0;
    expect((await send()).sent).toBe(2);
    expect(arrived.map(({ text }) => /Subject: (.*)/.exec(text)?.[1])).toEqual([
      'Row and Husk Advice has come by your link and advises you.',
      'Row and Husk Advice wrote a note.',
    ]);
    for (const { text } of arrived) expect(content(text)).not.toMatch(/Never above|59/);
  });

  test('goes out once, however many send at once', async () => {
    for (let lots = 0; lots < 3; lots++) await offered(dairy, await postedLot(seller));
    const sent = await Promise.all([send(), send(), send(), send()]);
    expect(sent.reduce((sum, mailed) => sum + mailed.sent, 0)).toBe(3);
    expect(arrived).toHaveLength(3);
    expect(new Set(arrived.map(({ text }) => /offers\/\S+/.exec(text)?.[0])).size).toBe(3);
    expect((await send()).sent).toBe(0);
  });

  test('is not sent at all without a mail server, nor of what was seen or is old', async () => {
    const offerId = await offered(dairy, await postedLot(seller));
    expect(await mailNotices(record.tools, { address })).toEqual({ sent: 0, failures: [] });
    expect(arrived).toEqual([]);
    const muchLater = later(mailing, 3);
    expect((await mailNotices(muchLater, { address })).sent).toBe(0);
    await markSeen(seller, { noticeIds: (await readNotices(seller)).unseen.map(({ id }) => id) });
    expect((await send()).sent).toBe(0);
    await endOffer(dairy, { offerId });
    // Nobody said where browsers find the program: then there is no link.
    expect((await mailNotices(mailing, { address: undefined })).sent).toBe(1);
    expect(arrived[0]?.text).not.toContain('/offers/');
  });

  test('is tried again with the next notice after the server failed', async () => {
    const lotId = await postedLot(seller);
    const offerId = await offered(dairy, lotId);
    isDown = true;
    const failed = await send();
    expect([failed.sent, failed.failures.length]).toEqual([0, 1]);
    expect(arrived).toEqual([]);
    const nowhere = { ...mailing, mailer: smtpMailer({ server: 'smtp://127.0.0.1:1', from: FROM }) };
    expect((await mailNotices(nowhere, { address })).failures).toHaveLength(1);
    isDown = false;
    await endOffer(dairy, { offerId });
    expect(await send()).toEqual({ sent: 2, failures: [] });
    expect(arrived.map(({ text }) => /Subject: (.*)/.exec(text)?.[1])).toEqual([
      `${DAIRY} made an offer on your lot.`,
      `${DAIRY} withdrew the offer.`,
    ]);
  });

  test('a password for the mail server never travels in the clear', async () => {
    await offered(dairy, await postedLot(seller));
    const login = smtp.replace('smtp://', 'smtp://user:secret@');
    const open = { ...mailing, mailer: smtpMailer({ server: login, from: FROM }) };
    const { sent, failures } = await mailNotices(open, { address });
    expect(sent).toBe(0);
    expect(String(failures[0])).toMatch(/STARTTLS/);
    expect(arrived).toEqual([]);
  });
});

describe('a password', () => {
  const ORIGIN = { address: '192.0.2.1', agent: 'test' };

  test('is changed by who knows the present one, and every other sign-in ends', async () => {
    const { email } = await record.tools.store.atDoor((tx) =>
      tx.person.findUniqueOrThrow({ where: { id: dairy.caller.personId } }),
    );
    const enter = (password: string) => signIn(record.tools, { email, password, ...ORIGIN });
    const [here, there] = [await enter(PASSWORD), await enter(PASSWORD)];
    const change = {
      sessionId: here.sessionId,
      present: PASSWORD,
      password: 'another cob entirely',
      address: 'a',
    };
    expect(await refused(changePassword(record.tools, { ...change, present: 'guessed it' }))).toBe(
      'bad-input',
    );
    expect(await refused(changePassword(record.tools, { ...change, password: 'short' }))).toBe('bad-input');
    expect(await changePassword(record.tools, change)).toEqual({ ended: 1 });
    expect(await refused(readSession(record.tools, there))).toBe('not-signed-in');
    expect(await readSession(record.tools, here)).toMatchObject({ email });
    expect(await refused(enter(PASSWORD))).toBe('wrong-sign-in');
    await enter('another cob entirely');
    for (let tries = 0; tries < 7; tries++) {
      await refused(changePassword(record.tools, { ...change, present: 'guessed it' }));
    }
    expect(await refused(changePassword(record.tools, change))).toBe('too-many-tries');
  });

  test('is set by somebody who signs in elsewhere, and then signs', async () => {
    const caller = await newParty(record.tools, 'Lanternfield Dairy');
    const lantern: Context = { ...record.tools, caller };
    const { email } = await record.tools.store.atDoor((tx) =>
      tx.person.findUniqueOrThrow({ where: { id: caller.personId } }),
    );
    const { sessionId } = await signInByProvider(record.tools, { email, ...ORIGIN });
    const offerId = await offered(lantern, await postedLot(seller));
    expect(await refused(signNewest(lantern, offerId, 'Lanternfield Dairy'))).toBe('wrong-sign-in');
    expect(await hasPassword(record.tools, { sessionId })).toBe(false);
    await changePassword(record.tools, { sessionId, present: '', password: PASSWORD, address: 'a' });
    expect(await hasPassword(record.tools, { sessionId })).toBe(true);
    await signNewest(lantern, offerId, 'Lanternfield Dairy');
    expect(await acts(seller)).toEqual([
      'Lanternfield Dairy signed the offer on lot 1. It waits for your signature until 2 December.',
    ]);
  });
});
