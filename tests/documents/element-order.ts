/**
 * Holds XML to a table of what each element may hold, in which order and how often: the part of a schema that a writer
 * gets wrong. A table says "ID IssueDate Note* PayeeParty? Line+" for each element that holds elements.
 */
import { everyElement, type ReadElement } from './xml-reader.ts';

export type ElementTable = Readonly<Record<string, string>>;

/** Every place where a document does not keep to the table; empty where it does. */
export function orderFaults(root: ReadElement, table: ElementTable): string[] {
  return everyElement(root)
    .filter(({ children }) => children.length > 0)
    .flatMap(({ name, children }) => {
      const rule = Object.hasOwn(table, name) ? table[name] : undefined;
      if (rule === undefined) return [`${name} may not hold elements`];
      const found = children.map((child) => `${child.name};`).join('');
      return ruleExpression(rule).test(found) ? [] : [`${name} holds ${found} but ${rule}`];
    });
}

/** Choices stand in brackets: "(IBAN|Othr)". */
function ruleExpression(rule: string): RegExp {
  const parts = rule
    .trim()
    .split(/\s+/)
    .map((part) => part.replace(/^(.*?)([?*+]?)$/, '(?:(?:$1);)$2'));
  return new RegExp(`^${parts.join('')}$`);
}
