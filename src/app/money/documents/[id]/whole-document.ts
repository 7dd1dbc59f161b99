/**
 * What a form sends where the whole document is questioned and not one load; files of actions hold actions alone.
 */
export const WHOLE = 'whole';
