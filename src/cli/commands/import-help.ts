/**
 * What `huskledger import` says of itself; apart, so that it can be said without loading the database.
 */
export const IMPORT_HELP = `huskledger import DIR --as EMAIL [--and EMAIL] [--no-settle]

  Records the season in the folder DIR (agreement, loads, results, prices, decisions) in the shared record, and settles
  what is ready. EMAIL is an owner of the seller's or the buyer's party, which must have the name that the agreement
  gives it. Importing the same folder again adds only what is new.

  --and EMAIL   an owner of the other party, for what only that side decides (pricing dates are the seller's to name,
                loads out of range the buyer's to accept or refuse); without it those of the other side are passed over
  --no-settle   records, and settles nothing

  HUSKLEDGER_DATA names the data folder (huskledger-data without it), DATABASE_URL a PostgreSQL server instead.
  Exit status: 0 when every load settled or was refused, 2 when some wait, 1 on any input error (nothing is recorded).`;
