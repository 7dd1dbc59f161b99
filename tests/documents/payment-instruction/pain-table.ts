/**
 * What elements of ISO 20022 pain.001.001.09 hold, as far as ours may have them: order, number and longest texts. Read:
 * GroupHeader85 and CreditTransferTransaction34 in the schema that the European Payments Council restricts,
 * PaymentInstruction30 in a published binding of the whole one, and the parts (PartyIdentification135, CashAccount38,
 * BranchAndFinancialInstitutionIdentification6, RemittanceInformation16, ReferredDocumentInformation7, RemittanceAmount2)
 * in the schema of pacs.008.001.08, which has the same types. The methods of payment are from memory.
 */
import type { ElementTable } from '../element-order.ts';

export const PAIN_TABLE: ElementTable = {
  Document: 'CstmrCdtTrfInitn',
  CstmrCdtTrfInitn: 'GrpHdr PmtInf+',
  GrpHdr: 'MsgId CreDtTm NbOfTxs CtrlSum? InitgPty',
  PmtInf:
    'PmtInfId PmtMtd BtchBookg? NbOfTxs? CtrlSum? PmtTpInf? ReqdExctnDt Dbtr DbtrAcct DbtrAgt UltmtDbtr? ChrgBr? CdtTrfTxInf+',
  ReqdExctnDt: '(Dt|DtTm)',
  CdtTrfTxInf: 'PmtId PmtTpInf? Amt ChrgBr? UltmtDbtr? CdtrAgt? Cdtr? CdtrAcct? UltmtCdtr? Purp? RmtInf?',
  PmtId: 'InstrId? EndToEndId',
  Amt: '(InstdAmt|EqvtAmt)',
  InitgPty: 'Nm? PstlAdr? Id?',
  Dbtr: 'Nm? PstlAdr? Id?',
  Cdtr: 'Nm? PstlAdr? Id?',
  UltmtCdtr: 'Nm? PstlAdr? Id?',
  DbtrAcct: 'Id Tp? Ccy? Nm?',
  CdtrAcct: 'Id Tp? Ccy? Nm?',
  Id: '(IBAN|Othr)',
  Othr: 'Id',
  DbtrAgt: 'FinInstnId BrnchId?',
  CdtrAgt: 'FinInstnId BrnchId?',
  FinInstnId: 'BICFI? ClrSysMmbId? LEI? Nm? PstlAdr? Othr?',
  ClrSysMmbId: 'ClrSysId? MmbId',
  ClrSysId: '(Cd|Prtry)',
  RmtInf: 'Ustrd* Strd*',
  Strd: 'RfrdDocInf* RfrdDocAmt? CdtrRefInf? AddtlRmtInf*',
  RfrdDocInf: 'Tp? Nb? RltdDt?',
  Tp: 'CdOrPrtry Issr?',
  CdOrPrtry: '(Cd|Prtry)',
  RfrdDocAmt: 'DuePyblAmt? DscntApldAmt* CdtNoteAmt? TaxAmt* AdjstmntAmtAndRsn* RmtdAmt?',
};

const MAX_35 = /^.{1,35}$/su;
const MAX_140 = /^.{1,140}$/su;
/** ActiveOrHistoricCurrencyAndAmount: at most 18 digits, 5 of them decimals, not below zero. */
const AMOUNT = /^(?=(?:\d\.?){1,18}$)\d+(?:\.\d{1,5})?$/;

/** What the text of an element has to look like. */
export const PAIN_TEXTS: Readonly<Record<string, RegExp>> = {
  MsgId: MAX_35,
  PmtInfId: MAX_35,
  EndToEndId: MAX_35,
  Nb: MAX_35,
  MmbId: MAX_35,
  Nm: MAX_140,
  NbOfTxs: /^[0-9]{1,15}$/,
  CtrlSum: /^\d+(\.\d+)?$/,
  PmtMtd: /^(CHK|TRF|TRA)$/,
  CreDtTm: /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}:\d{2}(\.\d+)?(Z|[+-]\d{2}:\d{2})?$/,
  Dt: /^\d{4}-\d{2}-\d{2}$/,
  RltdDt: /^\d{4}-\d{2}-\d{2}$/,
  IBAN: /^[A-Z]{2}[0-9]{2}[a-zA-Z0-9]{1,30}$/,
  BICFI: /^[A-Z0-9]{4}[A-Z]{2}[A-Z0-9]{2}([A-Z0-9]{3})?$/,
  InstdAmt: AMOUNT,
  RmtdAmt: AMOUNT,
  CdtNoteAmt: AMOUNT,
  // Account numbers (Max34Text), and NOTPROVIDED of a bank (Max35Text); of elements it is the one that holds others.
  Id: /^.{0,34}$/su,
};
