/**
 * Leads the keyboard to a field of the builder: what it is folded into opens, and where the field itself is not drawn,
 * the panel around it is meant.
 */
import { useEffect } from 'react';

const OURS = /^#formula-/;

/** The place with this id or, where there is none, the nearest around it. */
function nearestPlace(id: string): HTMLElement | undefined {
  for (let name = id; name.includes('-'); name = name.slice(0, name.lastIndexOf('-'))) {
    const found = document.getElementById(name);
    if (found) return found;
  }
  return undefined;
}

export function goToPlace(id: string): void {
  const place = nearestPlace(id);
  if (!place) return;
  for (let around: Element | null = place; around; around = around.parentElement) {
    if (around instanceof HTMLDetailsElement) around.open = true;
  }
  const target = place instanceof HTMLDetailsElement ? place.querySelector('summary') : place;
  target?.scrollIntoView({ block: 'center' });
  target?.focus({ preventScroll: true });
}

/** Links to places of the builder lead there, whatever is folded; also those that stand outside of it. */
export function useWaysToPlaces(): void {
  useEffect(() => {
    const follow = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest('a') : null;
      const to = link?.getAttribute('href') ?? '';
      if (!OURS.test(to)) return;
      event.preventDefault();
      goToPlace(to.slice(1));
    };
    document.addEventListener('click', follow);
    return () => document.removeEventListener('click', follow);
  }, []);
}
