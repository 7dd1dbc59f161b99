/**
 * Which role in a party may do what. Reading is for every member; what commits money or weight is not.
 */

export const ROLES = ['owner', 'bookkeeper', 'scale-operator', 'viewer'] as const;
export type Role = (typeof ROLES)[number];

/** How a role is called in a sentence. */
export const ROLE_NAMES: Readonly<Record<Role, string>> = {
  owner: 'owner',
  bookkeeper: 'bookkeeper',
  'scale-operator': 'scale operator',
  viewer: 'viewer',
};

/** Everything that a member of a party can ask for. */
export const VERBS = [
  'read',
  'record-agreement',
  'record-load',
  'take-sample',
  'record-result',
  'record-quote',
  'record-election',
  'record-choice',
  'settle',
  'correct',
  'issue-invoice',
  'record-payment',
  'question-amount',
  'question',
  'keep-lien',
  'keep-account',
  'keep-scale',
  'keep-silo',
  'keep-lot',
  'make-offer',
  'sign',
  'advise',
  'invite',
  'keep-token',
  'end-membership',
] as const;
export type Verb = (typeof VERBS)[number];

const EVERYONE = ROLES;
const OFFICE: readonly Role[] = ['owner', 'bookkeeper'];

const ALLOWED: Readonly<Record<Verb, readonly Role[]>> = {
  read: EVERYONE,
  'record-agreement': ['owner'],
  'record-load': ['owner', 'bookkeeper', 'scale-operator'],
  'take-sample': ['owner', 'bookkeeper', 'scale-operator'],
  'record-result': OFFICE,
  'record-quote': OFFICE,
  'record-election': OFFICE,
  'record-choice': OFFICE,
  settle: OFFICE,
  correct: OFFICE,
  'issue-invoice': OFFICE,
  'record-payment': OFFICE,
  'question-amount': OFFICE,
  question: OFFICE,
  'keep-lien': OFFICE,
  'keep-account': ['owner'],
  'keep-scale': OFFICE,
  'keep-silo': OFFICE,
  'keep-lot': OFFICE,
  'make-offer': OFFICE,
  sign: ['owner'],
  advise: OFFICE,
  invite: ['owner'],
  'keep-token': ['owner'],
  'end-membership': ['owner'],
};

/** Whether a member with this role may do it. */
export function mayDo(role: Role, verb: Verb): boolean {
  return ALLOWED[verb].includes(role);
}

/** What a verb does, to complete "may not …". */
export const VERB_NAMES: Readonly<Record<Verb, string>> = {
  read: 'read the record',
  'record-agreement': 'record an agreement',
  'record-load': 'record a load',
  'take-sample': 'take, seal or hand over samples',
  'record-result': 'record a result',
  'record-quote': 'record a price',
  'record-election': 'name a pricing date',
  'record-choice': 'accept or refuse a load',
  settle: 'settle loads',
  correct: 'put right what was recorded',
  'issue-invoice': 'issue invoices',
  'record-payment': 'record or answer payments',
  'question-amount': 'hold back a questioned amount',
  question: 'question a weight or a result, or answer a question',
  'keep-lien': 'record a lender’s notice',
  'keep-account': 'say where the party wants its money',
  'keep-scale': 'describe a scale or a ticket series',
  'keep-silo': 'keep the account of what was stored',
  'keep-lot': 'post feed for sale',
  'make-offer': 'make or answer an offer',
  sign: 'sign for the party',
  advise: 'write advice',
  invite: 'invite people',
  'keep-token': 'let a program in',
  'end-membership': 'end somebody’s part in the party',
};
