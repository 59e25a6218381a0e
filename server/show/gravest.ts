/** The gravest of many findings, for forms that hold a limited number of them. */

import type { Finding } from '../rules/check.ts';
import { gravityOf, LEAST_GRAVE } from '../rules/check.ts';
import type { PlacedFinding } from './check-result.ts';

/** In order of gravity; of equal ones in the order in which they came. */
export class Gravest {
  private readonly byGravity: PlacedFinding[][] = Array.from({ length: LEAST_GRAVE + 1 }, () => []);
  private kept = 0;
  /** Of all that came. */
  count = 0;

  constructor(private readonly most: number) {}

  /** Whether a finding that came now would be among them. */
  takes(finding: Finding): boolean {
    if (this.kept < this.most) return true;
    for (let least = LEAST_GRAVE; least > gravityOf(finding); least--)
      if (this.byGravity[least]!.length > 0) return true;
    return false;
  }

  add(found: PlacedFinding): void {
    this.count++;
    if (!this.takes(found.finding)) return;
    this.byGravity[gravityOf(found.finding)]!.push(found);
    if (++this.kept <= this.most) return;
    this.byGravity.findLast(some => some.length > 0)!.pop();
    this.kept--;
  }

  get all(): readonly PlacedFinding[] {
    return this.byGravity.flat();
  }
}
