import { currentJobs, type Job } from '../../assess/jobs.ts';
import { hearsay } from '../../assess/permit-needs.ts';
import { permitFor } from '../../assess/permits.ts';
import { endsTree, jobName } from '../../assess/prescriptions.ts';
import { memo } from '../../base/memo.ts';
import { capital, listed } from '../../base/words.ts';
import type { Tree } from '../../facts/types.ts';
import { cite } from '../../practice/citation.ts';
import { FORCES, ofKind, type RowOf } from '../../practice/law/laws-of.ts';
import type { RegionPack } from '../../practice/region-pack.ts';
import type { TreeContext } from '../context.ts';
import { NOTHING, type Rule, type RuleReport } from '../rule.ts';

type WoodRow = RowOf<'wood'>;

const rowsIn = memo(({ rows }: RegionPack): readonly WoodRow[] => ofKind(rows, 'wood'));

/** Whether the tree is a host; one of an unknown species is one of what is for all of them alone. */
const isHost = ({ rule }: WoodRow, { species }: Tree): boolean =>
  rule.genera === undefined || (species !== undefined && rule.genera.includes(species.value.genus));

/** `stays`, `leaves`, or undefined where nothing is said; logs are cut for a mill. */
const fateOf = ({ prescription: { wood, logs } }: Job): 'stays' | 'leaves' | 'logs' | undefined =>
  wood?.where ?? (logs.length > 0 ? 'logs' : undefined);

function reportOn(job: Job, row: WoodRow): RuleReport {
  const { prescription, work, subject } = job;
  const { pest, onlyIf, fate: asked } = row.rule;
  const fate = fateOf(job);
  const told = hearsay(row);
  const doubts = [...(onlyIf ? [onlyIf] : []), ...(told ? [told] : []), ...(row.doubt ? [row.doubt] : [])];
  const isSure = fate === 'leaves' && doubts.length === 0 && row.force === 'law';
  const what = {
    leaves: `lets wood leave the site${prescription.wood?.to ? ` to ${prescription.wood.to}` : ''}`,
    logs: 'lists logs and does not state whether wood leaves the site',
    unsaid: 'does not state whether wood leaves the site',
  }[fate === 'leaves' || fate === 'logs' ? fate : 'unsaid'];
  return {
    at: prescription.wood ?? prescription.at,
    grade: isSure ? 'exceeds' : 'may exceed',
    ...(fate === undefined && onlyIf ? { level: 'note' } : {}),
    subject,
    message: `${capital(jobName(prescription))} ${what}. Because of ${pest}, it must stay where it is cut (${row.source}, ${FORCES[row.force]}).${doubts.length === 0 ? '' : ` Uncertain: ${listed(doubts)}.`}`,
    remedy: work
      ? 'Add the permit or authorization under which the wood was moved to the prescription. If there was none, notify the authority.'
      : `Add the line wood stays${asked ? `; it is ${asked}` : ''}. Where the authority allows it to leave, add its permit to the prescription.`,
  };
}

function check({ tree, settings, today }: TreeContext): readonly RuleReport[] {
  if (tree.prescriptions.length === 0) return NOTHING;
  const rows = rowsIn(settings.region).filter(row => isHost(row, tree));
  if (rows.length === 0) return NOTHING;
  return currentJobs(tree, today).flatMap(job => {
    const fate = fateOf(job);
    if (fate === 'stays' || (job.work && fate !== 'leaves') || permitFor(tree, job.prescription)) return [];
    const row = rows.findLast(({ rule }) => fate !== undefined || !rule.onlyIf || endsTree(job.prescription));
    return row ? [reportOn(job, row)] : [];
  });
}

export const woodUnderQuarantine: Rule = {
  name: 'wood-under-quarantine',
  group: 'permits',
  level: 'error',
  summary: 'host wood that leaves the site where local law requires it to stay',
  sources: [cite('practice')],
  explanation:
    'Wood carries pests. For cuts and fellings of a host, open or done within the last year, the rule applies the rows of the region on wood that must not be moved. Examples are elm in Saskatchewan and Alberta, ash in the regulated areas of Canada, and spruce in England. Wood that leaves is an error where the row is law, was read and applies in all of the region. It is a warning where the row applies in zones that the inventory does not know, is from memory, or is guidance. A prescription that does not state where its wood goes is a warning. In a region with zones, an unstated felling is a note and pruning is not reported. The line wood stays or a permit on the prescription resolves the finding.',
  limitations:
    'Trees without a species. The location of the zones. The treatment of the wood at the site, beyond what the remedy states. Sanitary rules for tools and cutting dates, which have rules of their own or none.',
  appliesTo: ['prescriptions'],
  acceptable: true,
  caution: 'The plant health authority publishes where the zones are today.',
  examples: [
    {
      title: 'Elm in Saskatchewan: wood that leaves, nothing said, and wood that stays or leaves by permit',
      on: '2026-11-01',
      text: `site "Elm Row"
  region CA-SK

tree 721
  species Ulmus americana
  prescription R1 fell
    wood leaves to "firewood yard" #! exceeds
  prescription R2 clean #! may exceed

tree 722
  species Ulmus americana
  prescription R1 fell
    wood stays
  prescription R2 clean
    wood leaves to "city disposal site"
    permit DED-14, until 2027-03-31

tree 723
  species Acer negundo
  prescription R1 fell
    wood leaves
`,
    },
    {
      title: 'Ash in Canada: zones that the inventory does not know',
      on: '2026-11-01',
      text: `site "Elm Row"
  region CA-ON

tree 724
  species Fraxinus americana
  prescription R1 fell
    wood leaves #! may exceed
  prescription R2 clean

tree 725
  species Fraxinus americana
  prescription R1 fell #! may exceed
    logs 8 ft

tree 726
  species Fraxinus americana
  prescription R1 fell #! note may exceed
`,
    },
  ],
  check,
};
