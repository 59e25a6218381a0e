/** What stands around the tree: targets and their risk, electric lines, lines of sight. */

import type { BlockLine, BlockSection } from '../../grammar/syntax.ts';
import {
  bearing,
  contentOf,
  type Draft,
  dayOf,
  endOf,
  fieldLines,
  headLine,
  nameOr,
  notesOf,
  quantity,
  type Reading,
  startOf,
  window,
  word,
} from './lines.ts';
import type { Conductor, Inspection, Risk, Target, View } from './types.ts';

export function readTarget(reading: Reading, section: BlockSection): Target {
  const head = headLine(reading, section);
  const target: Draft<Target> = {
    at: contentOf(head),
    name: nameOr(head, 'name'),
    notes: notesOf(reading, section),
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'distance':
        target.distance = quantity(line, 'distance');
        target.toward = bearing(line, 'toward');
        break;
      case 'occupied':
        target.occupied = word(line, 'occupied');
        break;
      case 'kind':
        target.kind = word(line, 'kind');
        break;
      case 'closed':
        target.closed = closed(line);
        break;
    }
  }
  return target as Target;
}

function closed(line: BlockLine): NonNullable<Target['closed']> {
  const draft: Draft<NonNullable<Target['closed']>> = {
    start: startOf(line),
    end: endOf(line),
    from: dayOf(line, 'from')!,
  };
  draft.until = dayOf(line, 'until');
  draft.by = word(line, 'by');
  return draft as NonNullable<Target['closed']>;
}

export function readRisk(reading: Reading, section: BlockSection, last: Inspection | undefined): Risk {
  const head = headLine(reading, section);
  const risk: Draft<Risk> = {
    at: contentOf(head),
    target: nameOr(head, 'target'),
    notes: notesOf(reading, section),
  };
  risk.defect = word(head, 'cause');
  risk.seen = last?.date.value;
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'failure':
      case 'impact':
      case 'consequences':
      case 'rating':
        risk[line.word] = word(line, line.word);
        break;
      case 'within':
        risk.within = quantity(line, 'within');
        break;
      case 'seen':
        risk.seen = dayOf(line, 'date');
        break;
      case 'by':
        risk.by = word(line, 'person');
        break;
    }
  }
  return risk as Risk;
}

export function readConductor(reading: Reading, section: BlockSection): Conductor {
  const head = headLine(reading, section);
  const conductor: Draft<Conductor> = {
    at: contentOf(head),
    name: nameOr(head, 'name'),
    notes: notesOf(reading, section),
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'voltage':
      case 'distance':
      case 'height':
        conductor[line.word] = quantity(line, line.word);
        break;
      case 'dead':
        conductor.dead = window(line, 'window');
        break;
    }
  }
  return conductor as Conductor;
}

export function readView(reading: Reading, section: BlockSection): View {
  const head = headLine(reading, section);
  const view: Draft<View> = {
    at: contentOf(head),
    name: nameOr(head, 'name'),
    notes: notesOf(reading, section),
  };
  for (const line of fieldLines(reading, section)) {
    switch (line.word) {
      case 'eye':
        view.eye = quantity(line, 'eye');
        view.away = quantity(line, 'away');
        break;
      case 'hide':
      case 'open':
        view[line.word] = sight(line);
        break;
    }
  }
  return view as View;
}

const sight = (line: BlockLine): NonNullable<View['hide']> => ({
  object: quantity(line, 'object')!,
  beyond: quantity(line, 'beyond')!,
});
