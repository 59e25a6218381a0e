/** Strength loss of an open hollow by (d³ + Ro(D³ − d³))/D³. */

import { hollowsOf, isUnread, openingShare } from '../../assess/hollows.ts';
import { judge, showLimit, showValue } from '../../assess/judge.ts';
import { lossWords, THUMB_CAUTION } from '../../assess/thumb-words.ts';
import { cite } from '../../practice/index.ts';
import type { TreeContext } from '../context.ts';
import type { Report, Rule } from '../rule.ts';
import { settlingOf } from '../with-readings.ts';

function* check(context: TreeContext): Iterable<Report> {
  const { tree, settings } = context;
  for (const hollow of hollowsOf(tree, settings)) {
    if (!hollow.cavity.opening) continue;
    const judged = judge(hollow.thumbs.withOpening.value, 'strength-loss', settings);
    // Of a void that nobody read, an opening alone tells something only where it is too wide for any wall.
    if (judged.standing === 'within' || (judged.standing === 'may exceed' && isUnread(hollow))) continue;
    const share = openingShare(hollow);
    const { reading, advice } = settlingOf(context, hollow, judged);
    const words = lossWords(hollow, judged, '(d³ + Ro(D³ − d³))/D³ (Smiley and Fraedrich 1992)', reading);
    const opening = judge(share, 'opening-share', settings);
    yield {
      at: hollow.defect.opening!,
      grade: judged.standing,
      subject: hollow.defect.id.value,
      message:
        opening.standing === 'within'
          ? words.message
          : `${words.message.slice(0, -1)}; the opening takes ${showValue(opening)} of the circumference, and past ${showLimit(opening)} the formula itself does not hold.`,
      remedy: words.remedy,
      advice,
    };
  }
}

export const strengthLossOpening: Rule = {
  name: 'strength-loss-opening',
  group: 'structure',
  level: 'error',
  summary: 'strength loss of an open hollow, its opening counted, beyond one third',
  sources: [cite('smiley-fraedrich-1992'), cite('mattheck-breloer-1994'), cite('kane-ryan-2004')],
  explanation: `For cavities and decay with an opening. D is the diameter of the wood under the bark, d that of the void (D less twice the mean sound wall, or the depth where only that was probed), Ro the width of the opening over the circumference. The loss (d³ + Ro(D³ − d³))/D³ is compared with the limit strength-loss. Where nothing was read of the void, the rule speaks only of an opening that is too wide for any wall: strength-loss-section and interior-unseen say what is open.

The formula knows no direction: wind along the opening may take more than it says. It holds for openings up to about a third of the circumference; beyond that the finding says so.`,
  whenNot: 'Closed hollows, for which strength-loss-cubic gives the same; defects without a diameter.',
  looksAt: ['defects'],
  acceptable: true,
  caution: THUMB_CAUTION,
  examples: [
    {
      title: 'Twenty of thirty inches, open over a tenth of the circumference: 36.7 %',
      text: `tree 91
  inspection 2026-05-04 from ground
  defect A cavity
    on trunk at 5 ft, facing W
    diameter 30 in
    opening 9.425 in wide #! exceeds
    depth 20 in
`,
    },
    {
      title: 'A depth without an end, and an opening too wide for any wall',
      text: `tree 92
  inspection 2026-05-04 from lift
  defect A cavity
    diameter 25 in
    opening 6 in wide, 8 in tall #! may exceed
    depth > 11 in
  defect B cavity
    diameter 20 in
    opening 15..24 in wide #! may exceed
    wall 8 in
  defect C cavity
    diameter 20 in
    opening 26 in wide #! exceeds
    wall 8 in
`,
    },
    {
      title: 'A small opening before a shallow void, a closed hollow, and a depth unseen',
      text: `tree 93
  inspection 2026-05-04 from ground
  defect A cavity
    diameter 30 in
    opening 4 in wide
    depth 12 in
  defect B cavity
    diameter 30 in
    opening closed
    wall 2 in
  defect C cavity
    diameter 25 in
    opening 6 in wide, 8 in tall
    depth unseen
`,
    },
  ],
  check,
};
