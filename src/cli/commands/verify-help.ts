/**
 * What `huskledger verify` says of itself; apart, so that it can be said without loading the database.
 */
export const VERIFY_HELP = `huskledger verify

  Checks the shared record: walks the journal of every agreement, holds every row against what the journal remembers,
  and works every settlement out again from what it rests on. Names each row that does not fit.

  HUSKLEDGER_DATA names the data folder (huskledger-data without it), DATABASE_URL a PostgreSQL server instead.
  Exit status: 0 when everything fits, 1 when something does not.`;
