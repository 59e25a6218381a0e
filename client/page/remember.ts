/** Small things that the page remembers; some private windows have no store for them. */

export function recall(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
  } catch {
    // Next time it is as if it had not been.
  }
}
