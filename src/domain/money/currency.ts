/**
 * Currencies and the decimals of their minor units, by ISO 4217 list one (published 2024-06-25; XCG, in force since
 * 2025, added). Shipped, because the platform's own tables print some currencies with other digits.
 * Codes without a minor unit (metals, testing, funds of account) are not money that a load can be paid in.
 */

const CODES_BY_DECIMALS: Readonly<Record<number, string>> = {
  0: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF',
  2:
    'AED AFN ALL AMD ANG AOA ARS AUD AWG AZN BAM BBD BDT BGN BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF CHE CHF ' +
    'CHW CNY COP COU CRC CUC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ GYD HKD HNL HTG ' +
    'HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK ' +
    'MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE ' +
    'SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS UAH USD USN UYU UZS VED VES WST XCD XCG YER ZAR ZMW ' +
    'ZWG',
  3: 'BHD IQD JOD KWD LYD OMR TND',
  4: 'CLF UYW',
};

const DECIMALS_BY_CODE: ReadonlyMap<string, number> = new Map(
  Object.entries(CODES_BY_DECIMALS).flatMap(([decimals, codes]) =>
    codes.split(' ').map((code): [string, number] => [code, Number(decimals)]),
  ),
);

/** Decimals of a currency's minor unit: USD 2, JPY 0, KWD 3, CLF 4; undefined for a code that is not in the list. */
export function currencyDecimals(code: string): number | undefined {
  return DECIMALS_BY_CODE.get(code);
}
