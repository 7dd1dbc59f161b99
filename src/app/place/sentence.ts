/**
 * Sentences put together from parts.
 */

/** With its first letter large. */
export function opening(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
