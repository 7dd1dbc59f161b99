/**
 * Sentences put together from parts.
 */

/** With its first letter large; pH keeps its small one. */
export function opening(text: string): string {
  if (text.startsWith('pH')) return text;
  return text.charAt(0).toUpperCase() + text.slice(1);
}
