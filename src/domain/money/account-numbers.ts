/**
 * Whether an account's or a bank's number can be one: check digits and shapes. That nobody mistyped it is likely then;
 * that the account exists is not said.
 */

/** Letters count as 10 to 35 (ISO 7064 as ISO 13616 uses it). */
function asDigits(text: string): string {
  return text.replace(/[A-Z]/g, (letter) => String(letter.charCodeAt(0) - 55));
}

/** An IBAN as it goes to a bank: without the blanks it is printed with, in capitals. "gb82 west" is "GB82WEST". */
export function plainIban(text: string): string {
  return text.replaceAll(' ', '').toUpperCase();
}

/**
 * Whether a text, as `plainIban` leaves it, is an IBAN (ISO 13616): country, two check digits, up to 30 letters and
 * digits, and 1 left when divided by 97 with the first four moved to the end (ISO 7064 MOD 97-10). How long it is in each
 * country is not looked at: that list changes.
 */
export function isIban(text: string): boolean {
  if (!/^[A-Z]{2}[0-9]{2}[A-Z0-9]{11,30}$/.test(text)) return false;
  // 00, 01 and 99 leave the same as 97, 98 and 02, and are never given out.
  if (/^..(00|01|99)/.test(text)) return false;
  return BigInt(asDigits(text.slice(4) + text.slice(0, 4))) % 97n === 1n;
}

/**
 * Whether a text is a routing number of the American Bankers Association: nine digits, which multiplied by 3, 7, 1, 3, 7,
 * 1, 3, 7, 1 come to a multiple of 10, the first two being 01 to 12, 21 to 32, 61 to 72 or 80.
 */
export function isRoutingNumber(text: string): boolean {
  if (!/^(0[1-9]|1[0-2]|2[1-9]|3[0-2]|6[1-9]|7[0-2]|80)[0-9]{7}$/.test(text)) return false;
  const weighted = [...text].reduce(
    (sum, digit, index) => sum + Number(digit) * ([3, 7, 1][index % 3] ?? 0),
    0,
  );
  return weighted % 10 === 0;
}

/**
 * Whether a text has the shape of a BIC (ISO 9362): four letters or digits, a country, two of the place and three of the
 * branch or none. This is the pattern of BICFIDec2014Identifier in ISO 20022.
 */
export function isBic(text: string): boolean {
  return /^[A-Z0-9]{4}[A-Z]{2}[A-Z0-9]{2}(?:[A-Z0-9]{3})?$/.test(text);
}
