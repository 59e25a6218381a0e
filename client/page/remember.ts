/** Small things that the page remembers; some private windows have no store for them. */

const untilClosed = new Map<string, string>();

export function recall(key: string): string | null {
  const now = untilClosed.get(key);
  if (now !== undefined) return now;
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}

export function remember(key: string, value: string): void {
  try {
    localStorage.setItem(key, value);
    untilClosed.delete(key);
  } catch {
    // The next time that the page is opened it is as if it had not been.
    untilClosed.set(key, value);
  }
}
