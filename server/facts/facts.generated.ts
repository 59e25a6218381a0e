/**
 * The facts, as the tables of heads and fields define them. Long because it has all of them. Printed by
 * `npm run generate`; edit grammar/fields-top.ts, grammar/fields-tree.ts or facts/schema.ts.
 */

import type { SpeciesName } from '../../grammar/species.ts';
import type { Span } from '../../grammar/text.ts';
import type { Quantity } from '../base/quantity.ts';
import type { FileFact, Headed, InTime, Placed, ReadAgain, Unread, Window, YearlyDays } from './placed.ts';

/** A site. It covers the files in its folder and subfolders, except subfolders with a site of their own. */
export interface Site extends FileFact {
  readonly kind: 'site';
  readonly name: Placed<string>;
  /** ISO 3166-2 code (or country code), which selects seasons, laws and breast height. */
  readonly region: Placed<string> | undefined;
  /** Latitude and longitude in decimal degrees, WGS 84. */
  readonly position: (Span & {
    readonly latitude: number;
    readonly longitude: number;
  }) | undefined;
  /** Height above the sea. At altitude, minimum approach distances to power lines are longer. */
  readonly altitude: Placed<Quantity> | undefined;
  /** Radial thickness of ice that limbs must carry, and its source. Without it no ice load is assumed. */
  readonly ice: (Span & {
    readonly thickness: Placed<Quantity>;
    readonly because: string | undefined;
  }) | undefined;
  /** Basic wind speed of the site in open terrain, a 3-second gust unless stated, and exposure category, as in ASCE 7. With leafless, figures for bare deciduous trees are given beside those in leaf. */
  readonly wind: (Span & {
    readonly speed: Placed<Quantity>;
    readonly exposure: 'B' | 'C' | 'D' | undefined;
    readonly averaging: 'gust' | 'ten-minute mean' | 'hourly mean' | undefined;
    readonly leafless: boolean;
  }) | undefined;
  /** A hill over which the wind speeds up, as in ASCE 7: its height, and the horizontal distance from the crest to where the ground upwind is half as high. Also where the site or the tree is. Only for a hill that no similar hill shelters upwind, within 100 times its height or 2 mi. For a tree that the hill of its site does not affect, write flat ground. */
  readonly hill: (Span & {
    readonly flat: boolean;
    readonly shape: 'ridge' | 'escarpment' | 'round hill' | undefined;
    readonly high: Placed<Quantity> | undefined;
    readonly halfLength: Placed<Quantity> | undefined;
    readonly crest: boolean;
    readonly distance: Placed<Quantity> | undefined;
    readonly side: 'upwind' | 'downwind' | undefined;
  }) | undefined;
  /** A factor on the design wind speed that the arborist states, from 1 to 1.3, and why: an edge made by felling, a gap between buildings. Shelter is not credited. */
  readonly windFactor: (Span & {
    readonly factor: Placed<Quantity>;
    readonly because: string;
  }) | undefined;
  /** Where the prevailing storms come from. */
  readonly galesFrom: number | undefined;
  /** The client. */
  readonly client: Placed<string> | undefined;
  /** The firm responsible for the report, with its address and telephone number. */
  readonly firm: Placed<string> | undefined;
  /** What the client asked for. */
  readonly assignment: Placed<string> | undefined;
  /** Which trees and parts of them the report covers, and which it does not. */
  readonly scope: Placed<string> | undefined;
  /** How the trees were inspected and rated. */
  readonly procedure: Placed<string> | undefined;
  /** A limiting condition of the report. */
  readonly limitations: readonly Placed<string>[];
  /** The nearest hospital with an emergency department; work orders show it. */
  readonly hospital: Placed<string> | undefined;
  /** Where the crew gathers in an emergency and meets the ambulance; work orders show it. */
  readonly muster: Placed<string> | undefined;
  /** Number of the quote for the prices of the site, the last day on which it can be accepted, and the tax that is added. */
  readonly quote: (Span & {
    readonly number: string;
    readonly until: number | undefined;
    readonly tax: Placed<Quantity> | undefined;
  }) | undefined;
  /** Maximum time between two inspections of a tree on this site. */
  readonly interval: Placed<Quantity> | undefined;
  /** Height at which dbh is measured, if it differs from that of the region. */
  readonly breastHeight: Placed<Quantity> | undefined;
  /** A storm after which trees with monitored defects are inspected again. */
  readonly storms: readonly (Span & {
    readonly date: number;
    readonly text: string | undefined;
  })[];
  /** Type of land, which affects closed seasons, permits and drones. For private land, name the most specific type, such as garden, forest, farm or open. */
  readonly grounds: Placed<'private' | 'garden' | 'orchard' | 'churchyard' | 'street' | 'forest' | 'farm' | 'open' | 'public park' | 'national park'> | undefined;
  /** The conservation area in which the trees of the site stand. */
  readonly conservationArea: Placed<string> | undefined;
  /** Whether drone flights need authorization here, and how long it is valid. */
  readonly airspace: (Span & {
    readonly controlled: boolean;
    readonly authorizedUntil: number | undefined;
  }) | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** A person who inspects, prescribes or works, with a short name. */
export interface Person extends FileFact {
  readonly kind: 'person';
  readonly id: Placed<string>;
  readonly name: Placed<string>;
  /** Qualifications. */
  readonly qualifications: readonly Placed<'consulting arborist' | 'climbing arborist' | 'ground worker' | 'remote pilot' | 'line clearance' | 'electrically instructed' | 'electrically qualified' | 'wildlife biologist' | 'bat worker' | 'crane operator' | 'trainee'>[];
  /** A certificate or license, and its expiry date. */
  readonly certificates: readonly (Span & {
    readonly number: string;
    readonly until: number | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** A crew and the limits of its equipment. */
export interface Crew extends FileFact {
  readonly kind: 'crew';
  readonly id: Placed<string>;
  readonly name: Placed<string>;
  /** Its members. */
  readonly members: readonly Placed<string>[];
  /** Qualifications. */
  readonly qualifications: readonly Placed<'consulting arborist' | 'climbing arborist' | 'ground worker' | 'remote pilot' | 'line clearance' | 'electrically instructed' | 'electrically qualified' | 'wildlife biologist' | 'bat worker' | 'crane operator' | 'trainee'>[];
  /** Working load limit of the crew's rigging. */
  readonly rope: Placed<Quantity> | undefined;
  /** Breaking strength of the rigging line, its elongation at a tenth of that, and whether it is spliced; otherwise it is tied with knots. */
  readonly riggingLine: (Span & {
    readonly strength: Placed<Quantity>;
    readonly elongation: Placed<Quantity> | undefined;
    readonly spliced: boolean;
  }) | undefined;
  /** Breaking strength of the rigging block or ring. */
  readonly block: Placed<Quantity> | undefined;
  /** Breaking strength of the sling that holds the block. */
  readonly sling: Placed<Quantity> | undefined;
  /** Heaviest pick of the crane, and the reach at which it applies. */
  readonly crane: (Span & {
    readonly mass: Placed<Quantity>;
    readonly reach: Placed<Quantity> | undefined;
  }) | undefined;
  /** Working height of the aerial lift. */
  readonly lift: Placed<Quantity> | undefined;
  /** The language of its work orders, English (en) unless stated: es is Spanish. */
  readonly language: Placed<'en' | 'es'> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** Limits, seasons, distances and severities for this folder and its subfolders, each with its reason. */
export interface Practice extends FileFact {
  readonly kind: 'practice';
  readonly name: Placed<string>;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  readonly limits: readonly Limit[];
  readonly seasons: readonly Season[];
  readonly approaches: readonly Approach[];
  readonly severities: readonly Severity[];
}

/** A tree, with a tag that is unique within its site. */
export interface Tree extends FileFact, InTime<Tree> {
  readonly kind: 'tree';
  readonly tag: Placed<string>;
  readonly name: Placed<string> | undefined;
  /** Botanical name: a binomial, with × for hybrids, ranks and 'Cultivar' if known; otherwise the genus alone. */
  readonly species: Placed<SpeciesName> | undefined;
  /** Latitude and longitude in decimal degrees, WGS 84. */
  readonly position: (Span & {
    readonly latitude: number;
    readonly longitude: number;
  }) | undefined;
  /** Diameter at breast height, one per stem. The region sets the measuring height unless it is stated. */
  readonly diameters: readonly Placed<Quantity>[];
  /** Diameter at breast height, one per stem. The region sets the measuring height unless it is stated. */
  readonly measuredAt: Placed<Quantity> | undefined;
  /** Height of the tree. */
  readonly height: Placed<Quantity> | undefined;
  /** Diameter of the trunk higher up, outside bark, and the height above ground at which it was measured. */
  readonly taper: (Span & {
    readonly diameter: Placed<Quantity>;
    readonly height: Placed<Quantity>;
  }) | undefined;
  /** Height of the crown base and mean crown spread. */
  readonly crownBase: Placed<Quantity> | undefined;
  /** Height of the crown base and mean crown spread. */
  readonly crownSpread: Placed<Quantity> | undefined;
  /** Live crown ratio: live crown length divided by tree height. */
  readonly liveCrown: Placed<Quantity> | undefined;
  /** Lean of the trunk from vertical, its direction, and whether it is changing. For a bowed trunk also how far, by plumb line, the middle of the crown is to the side of the base, and the middle of the trunk. */
  readonly lean: (Span & {
    readonly angle: Placed<Quantity>;
    readonly toward: number | undefined;
    readonly course: 'steady' | 'increasing' | 'new' | 'corrected' | undefined;
    readonly crownAside: Placed<Quantity> | undefined;
    readonly trunkAside: Placed<Quantity> | undefined;
  }) | undefined;
  /** A hill over which the wind speeds up, as in ASCE 7: its height, and the horizontal distance from the crest to where the ground upwind is half as high. Also where the site or the tree is. Only for a hill that no similar hill shelters upwind, within 100 times its height or 2 mi. For a tree that the hill of its site does not affect, write flat ground. */
  readonly hill: (Span & {
    readonly flat: boolean;
    readonly shape: 'ridge' | 'escarpment' | 'round hill' | undefined;
    readonly high: Placed<Quantity> | undefined;
    readonly halfLength: Placed<Quantity> | undefined;
    readonly crest: boolean;
    readonly distance: Placed<Quantity> | undefined;
    readonly side: 'upwind' | 'downwind' | undefined;
  }) | undefined;
  /** A factor on the design wind speed that the arborist states, from 1 to 1.3, and why: an edge made by felling, a gap between buildings. Shelter is not credited. */
  readonly windFactor: (Span & {
    readonly factor: Placed<Quantity>;
    readonly because: string;
  }) | undefined;
  /** Condition of the soil around the root collar. */
  readonly soil: Placed<'firm' | 'cracked' | 'heaving' | 'wet' | 'compacted' | 'unseen'> | undefined;
  /** Life stage. */
  readonly age: Placed<'young' | 'semi-mature' | 'mature' | 'over-mature' | 'veteran'> | undefined;
  /** Vigor, judged by growth and foliage. */
  readonly vigor: Placed<'good' | 'fair' | 'poor' | 'dead'> | undefined;
  /** A stress the tree is recovering from; lower dose limits apply. None where a tree stressed before has recovered. */
  readonly stressed: (Span & {
    readonly none: boolean;
    readonly cause: 'drought' | 'storm' | 'construction' | 'disease' | 'insects' | 'heat' | 'flooding' | undefined;
    readonly since: number | undefined;
  }) | undefined;
  /** Share of the crown that has died back from the tips. */
  readonly dieback: Placed<Quantity> | undefined;
  /** Marks a protected tree: what protects it, an order, a conservation area or a list, and the permit for work on it with its expiry date. */
  readonly protection: (Span & {
    readonly under: 'order' | 'conservation area' | 'list' | undefined;
    readonly by: string | undefined;
    readonly permit: Placed<string> | undefined;
    readonly until: number | undefined;
    readonly scope: 'pruning' | 'removal' | 'any work' | undefined;
  }) | undefined;
  /** A former tag of this tree. */
  readonly formerly: readonly Placed<string>[];
  /** The day the tree was planted; 1 January where only the year is known. */
  readonly planted: Placed<number> | undefined;
  /** The date the tree was felled or fell; its record is kept. */
  readonly felled: Placed<number> | undefined;
  /** A photograph of the whole tree. */
  readonly photos: readonly Placed<string>[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  readonly inspections: readonly Inspection[];
  readonly parts: readonly StemOrLimb[];
  readonly supports: readonly Support[];
  readonly defects: readonly Defect[];
  readonly drillings: readonly Drilling[];
  readonly tomograms: readonly Tomogram[];
  readonly joined: readonly Joined[];
  readonly targets: readonly Target[];
  readonly risks: readonly Risk[];
  readonly conductors: readonly Conductor[];
  readonly nestChecks: readonly NestCheck[];
  readonly batChecks: readonly BatCheck[];
  readonly pullTests: readonly PullTest[];
  readonly views: readonly View[];
  readonly prescriptions: readonly Prescription[];
  readonly works: readonly Work[];
  readonly followUps: readonly FollowUp[];
  readonly accepts: readonly Accept[];
}

/** A different value for a limit; for a limit based on law or safety, only a stricter one. */
export interface Limit extends Headed {
  readonly name: Placed<string>;
  readonly value: Placed<Quantity>;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
  /** The waiver or permit condition that allows a looser limit than the law, and its last day. */
  readonly authorized: (Span & {
    readonly by: string;
    readonly until: number;
  }) | undefined;
}

/** A different season from that of the region; for pruning, the days on which not to prune. */
export interface Season extends Headed {
  readonly season: Placed<'nesting' | 'raptor nesting' | 'bat maternity' | 'pruning' | Unread>;
  readonly days: YearlyDays;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
}

/** How far people who are not qualified keep from lines up to a voltage, or from all lines, where no law of the region is on record. */
export interface Approach extends Headed {
  readonly distance: Placed<Quantity>;
  readonly voltage: Placed<Quantity> | undefined;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
}

/** A different severity for the findings of a rule; for a rule based on law or safety, only a higher one. */
export interface Severity extends Headed {
  readonly rule: Placed<string>;
  readonly level: Placed<'error' | 'warning' | 'note' | 'off'>;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
}

/** One inspection: its date and vantage point. */
export interface Inspection extends Headed {
  readonly date: Placed<number>;
  readonly from: Placed<'ground' | 'drone' | 'rope' | 'lift' | 'platform' | 'window' | Unread>;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** Level of assessment: limited visual (1), basic from all sides (2), or advanced with instruments (3). */
  readonly level: Placed<'limited' | 'basic' | 'advanced'> | undefined;
  /** Diameter at breast height as measured that day, one per stem. The newest counts. */
  readonly diameters: readonly Placed<Quantity>[];
  /** Diameter at breast height as measured that day, one per stem. The newest counts. */
  readonly measuredAt: Placed<Quantity> | undefined;
  /** Height of the tree as measured that day. The newest counts. */
  readonly height: Placed<Quantity> | undefined;
  /** Diameter of the trunk higher up, outside bark, and the height above ground at which it was measured. */
  readonly taper: (Span & {
    readonly diameter: Placed<Quantity>;
    readonly height: Placed<Quantity>;
  }) | undefined;
  /** Height of the crown base and mean crown spread. */
  readonly crownBase: Placed<Quantity> | undefined;
  /** Height of the crown base and mean crown spread. */
  readonly crownSpread: Placed<Quantity> | undefined;
  /** Live crown ratio: live crown length divided by tree height. */
  readonly liveCrown: Placed<Quantity> | undefined;
  /** Lean of the trunk from vertical, its direction, and whether it is changing. For a bowed trunk also how far, by plumb line, the middle of the crown is to the side of the base, and the middle of the trunk. */
  readonly lean: (Span & {
    readonly angle: Placed<Quantity>;
    readonly toward: number | undefined;
    readonly course: 'steady' | 'increasing' | 'new' | 'corrected' | undefined;
    readonly crownAside: Placed<Quantity> | undefined;
    readonly trunkAside: Placed<Quantity> | undefined;
  }) | undefined;
  /** Condition of the soil around the root collar. */
  readonly soil: Placed<'firm' | 'cracked' | 'heaving' | 'wet' | 'compacted' | 'unseen'> | undefined;
  /** Life stage. */
  readonly age: Placed<'young' | 'semi-mature' | 'mature' | 'over-mature' | 'veteran'> | undefined;
  /** Vigor, judged by growth and foliage. */
  readonly vigor: Placed<'good' | 'fair' | 'poor' | 'dead'> | undefined;
  /** A stress the tree is recovering from; lower dose limits apply. None where a tree stressed before has recovered. */
  readonly stressed: (Span & {
    readonly none: boolean;
    readonly cause: 'drought' | 'storm' | 'construction' | 'disease' | 'insects' | 'heat' | 'flooding' | undefined;
    readonly since: number | undefined;
  }) | undefined;
  /** Share of the crown that has died back from the tips. */
  readonly dieback: Placed<Quantity> | undefined;
  /** Height of the drone above ground, and whose permission was obtained. Also the least horizontal distance to uninvolved people, and whether the drone was out of sight. */
  readonly flown: (Span & {
    readonly height: Placed<Quantity>;
    readonly permission: 'owner' | 'authority' | 'none' | undefined;
    readonly overPeople: boolean;
    readonly people: Placed<Quantity> | undefined;
    readonly unseen: boolean;
    readonly time: 'day' | 'night' | undefined;
    readonly standOff: Placed<Quantity> | undefined;
  }) | undefined;
  /** Instruments used. */
  readonly tools: readonly Placed<'mallet' | 'probe' | 'binoculars' | 'tomograph' | 'resistance drill' | 'pull test' | 'thermal camera'>[];
  /** What could not be inspected, in words. */
  readonly unseen: readonly Placed<string>[];
  /** A photograph: its file, the distance to the subject, and, if not in the file, where the camera looked, the 35 mm-equivalent focal length and the width in pixels. */
  readonly photos: readonly (Span & {
    readonly path: string;
    readonly distance: Placed<Quantity> | undefined;
    readonly toward: number | undefined;
    readonly focal: Placed<Quantity> | undefined;
    readonly pixels: Placed<Quantity> | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** One of several stems of the tree. A limb that is assessed separately. */
export interface StemOrLimb extends Headed, ReadAgain<StemOrLimb> {
  readonly kind: 'stem' | 'limb';
  readonly name: Placed<string>;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** Height above ground at which it begins, and its direction. */
  readonly from: Placed<Quantity> | undefined;
  /** Height above ground at which it begins, and its direction. */
  readonly facing: number | undefined;
  /** Diameter above the union. */
  readonly diameter: Placed<Quantity> | undefined;
  /** Height of its top above ground. */
  readonly height: Placed<Quantity> | undefined;
  /** Length from union to tip. */
  readonly length: Placed<Quantity> | undefined;
  /** Its union with the rest of the tree: where included bark lies, overgrown by wood (occluded) or open to the top (at the apex); with names the other stem of a codominant pair. */
  readonly union: Placed<'sound' | 'included bark' | 'cracked' | 'unseen'> | undefined;
  /** Its union with the rest of the tree: where included bark lies, overgrown by wood (occluded) or open to the top (at the apex); with names the other stem of a codominant pair. */
  readonly inclusion: Placed<'occluded' | 'at the apex'> | undefined;
  /** Its union with the rest of the tree: where included bark lies, overgrown by wood (occluded) or open to the top (at the apex); with names the other stem of a codominant pair. */
  readonly unionWith: Placed<string> | undefined;
  /** Diameter of the stem or limb it grows from, just above the union. */
  readonly parent: Placed<Quantity> | undefined;
  /** Its lean from vertical. */
  readonly lean: Placed<Quantity> | undefined;
  /** Its lean from vertical. */
  readonly toward: number | undefined;
  /** Where its foliage is: at the end only, after the inner branches were removed (lion-tailing). */
  readonly foliage: Placed<'along its length' | 'at the end only'> | undefined;
  /** A crown of its own. */
  readonly crownBase: Placed<Quantity> | undefined;
  /** A crown of its own. */
  readonly crownSpread: Placed<Quantity> | undefined;
  /** The date it was cut or broke off, and why. */
  readonly removed: Placed<number> | undefined;
  /** The date it was cut or broke off, and why. */
  readonly removedBecause: Placed<string> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** A cable, brace, prop or guy that is in place. */
export interface Support extends Headed, ReadAgain<Support> {
  readonly id: Placed<string>;
  readonly kind: Placed<'cable' | 'brace' | 'prop' | 'guy' | Unread>;
  /** The stems or limbs that it holds. */
  readonly holds: readonly Placed<string>[];
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** Height above ground at which a support holds the stem or limb, and its slope; any slope up to 30 deg if not stated. */
  readonly fixed: Placed<Quantity> | undefined;
  /** Height above ground at which a support holds the stem or limb, and its slope; any slope up to 30 deg if not stated. */
  readonly slope: Placed<Quantity> | undefined;
  /** Working load of a support: that of its weakest piece, terminations and bolts included. */
  readonly rated: Placed<Quantity> | undefined;
  /** Breaking load of the weakest piece of a support; it may carry a fifth of it if no working load is stated. */
  readonly breaking: Placed<Quantity> | undefined;
  /** The date it was installed, and by whom. */
  readonly installed: Placed<number> | undefined;
  /** The date it was installed, and by whom. */
  readonly installedBy: Placed<string> | undefined;
  /** An inspection of the support, from near. */
  readonly looks: readonly (Span & {
    readonly date: number;
    readonly by: Placed<string> | undefined;
  })[];
  /** The date it was taken out, and why. */
  readonly removed: Placed<number> | undefined;
  /** The date it was taken out, and why. */
  readonly removedBecause: Placed<string> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** A defect, as recorded at the last inspection above. */
export interface Defect extends Headed, ReadAgain<Defect> {
  readonly id: Placed<string>;
  readonly kind: Placed<'cavity' | 'decay' | 'crack' | 'included bark' | 'dead wood' | 'hanger' | 'fungus' | 'canker' | 'wound' | 'loose bark' | 'woodpecker holes' | 'root decay' | 'root loss' | 'girdling root' | 'weak union' | 'trench' | Unread>;
  /** The stem or limb it is on (trunk for the main stem), its height above ground, and the direction it faces. */
  readonly part: Placed<string> | undefined;
  /** The stem or limb it is on (trunk for the main stem), its height above ground, and the direction it faces. */
  readonly height: Placed<Quantity> | undefined;
  /** The stem or limb it is on (trunk for the main stem), its height above ground, and the direction it faces. */
  readonly facing: number | undefined;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** Whether it is only suspected, and how it is developing: a cavity that was filled is still judged, a wound that has closed over is healed, and what is no longer there (a hanger that fell, a trench backfilled) is gone. A fungus that is gone has left its decay. */
  readonly state: Placed<'suspected' | 'steady' | 'increasing' | 'filled' | 'healed' | 'gone'> | undefined;
  /** Diameter of the part at the defect, outside bark; two if it is oval, the first in the direction the defect faces. */
  readonly diameter: Placed<Quantity> | undefined;
  /** Diameter of the part at the defect, outside bark; two if it is oval, the first in the direction the defect faces. */
  readonly across: Placed<Quantity> | undefined;
  /** Bark thickness, deducted all round; if not stated, anything typical of the species. */
  readonly bark: Placed<Quantity> | undefined;
  /** The opening in the surface. */
  readonly opening: (Span & {
    readonly closed: boolean;
    readonly width: Placed<Quantity> | undefined;
    readonly tall: Placed<Quantity> | undefined;
  }) | undefined;
  /** Depth reached by a probe; it says nothing about the width of the void. */
  readonly depth: Placed<Quantity> | undefined;
  /** Thickness of the sound wall (the shell of sound wood): all round, or at each bearing given. The further apart the bearings, the less is known between them; give at least four. */
  readonly walls: readonly (Span & {
    readonly thickness: Placed<Quantity>;
    readonly bearing: number | undefined;
  })[];
  /** Length of a crack, a wound or deadwood. */
  readonly length: Placed<Quantity> | undefined;
  /** Width of a crack, a wound or a fruiting body. */
  readonly width: Placed<Quantity> | undefined;
  /** How far a crack runs: through the stem or limb, deep (toward the pith) or shallow (in the outer wood only), and whether it reaches the soil. */
  readonly runs: (Span & {
    readonly course: 'through' | 'deep' | 'shallow' | undefined;
    readonly soil: boolean;
  }) | undefined;
  /** How much of it is affected. */
  readonly share: (Span & {
    readonly share: Placed<Quantity>;
    readonly of: 'circumference' | 'crown' | 'roots' | 'union';
  }) | undefined;
  /** Distance of a trench from the bark at its nearest, and the side of the tree it is on. */
  readonly distance: Placed<Quantity> | undefined;
  /** Distance of a trench from the bark at its nearest, and the side of the tree it is on. */
  readonly toward: number | undefined;
  /** The date a trench was dug. */
  readonly dug: Placed<number> | undefined;
  /** The fungus or bird that caused it. */
  readonly species: Placed<SpeciesName> | undefined;
  /** The date from which it no longer matters, and why. */
  readonly closed: Placed<number> | undefined;
  /** The date from which it no longer matters, and why. */
  readonly closedBecause: Placed<string> | undefined;
  /** A photograph: its file, the distance to the subject, and, if not in the file, where the camera looked, the 35 mm-equivalent focal length and the width in pixels. */
  readonly photos: readonly (Span & {
    readonly path: string;
    readonly distance: Placed<Quantity> | undefined;
    readonly toward: number | undefined;
    readonly focal: Placed<Quantity> | undefined;
    readonly pixels: Placed<Quantity> | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** Readings with a resistance drill at a defect: its sound walls by bearing. At one bearing the latest reading counts. */
export interface Drilling extends Headed {
  readonly date: Placed<number>;
  readonly defect: Placed<string>;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** Height above ground at which it was read, if not that of the defect. */
  readonly height: Placed<Quantity> | undefined;
  /** How far a reading may be off, to either side; if not stated, what practice allows the instrument. */
  readonly error: Placed<Quantity> | undefined;
  /** Thickness of the sound wall under the bark at each bearing; a path that met no decay is written as more than its length. */
  readonly walls: readonly (Span & {
    readonly thickness: Placed<Quantity>;
    readonly bearing: number | undefined;
  })[];
  /** The trace of one path: a CSV file of depth and amplitude, and the bearing at which the drill went in. Wood below the threshold, a share of the amplitude of sound wood, counts as decayed (20 % if not stated, a judgment). */
  readonly traces: readonly (Span & {
    readonly path: string;
    readonly bearing: number;
    readonly threshold: Placed<Quantity> | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** Readings from a tomogram at a defect, by bearing, as sound walls or as the sound share of the radius. At one bearing the latest reading counts. */
export interface Tomogram extends Headed {
  readonly date: Placed<number>;
  readonly defect: Placed<string>;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** Height above ground at which it was read, if not that of the defect. */
  readonly height: Placed<Quantity> | undefined;
  /** How far a reading may be off, to either side; if not stated, what practice allows the instrument. */
  readonly error: Placed<Quantity> | undefined;
  /** Thickness of the sound wall under the bark at each bearing; a path that met no decay is written as more than its length. */
  readonly walls: readonly (Span & {
    readonly thickness: Placed<Quantity>;
    readonly bearing: number | undefined;
  })[];
  /** Sound share of the radius at a bearing, from the bark inward. */
  readonly sounds: readonly (Span & {
    readonly share: Placed<Quantity>;
    readonly bearing: number;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** Cavities that are, may be or are not connected inside. */
export interface Joined extends Headed, ReadAgain<Joined> {
  readonly defects: readonly Placed<string>[];
  readonly state: Placed<'suspected' | 'proved' | 'excluded'>;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** People or property that the tree or a part of it could strike. */
export interface Target extends Headed, ReadAgain<Target> {
  readonly name: Placed<string>;
  /** Horizontal distance from the trunk. */
  readonly distance: Placed<Quantity> | undefined;
  /** Horizontal distance from the trunk. */
  readonly toward: number | undefined;
  /** Occupancy rate. */
  readonly occupied: Placed<'rare' | 'occasional' | 'frequent' | 'constant'> | undefined;
  /** Type of target. */
  readonly kind: Placed<'people' | 'road' | 'building' | 'vehicles' | 'utility' | 'other'> | undefined;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** The dates on which people are kept out (the end may be left open), and who is responsible. */
  readonly closed: (Span & {
    readonly from: number;
    readonly until: number | undefined;
    readonly by: Placed<string>;
  }) | undefined;
  /** The date from which it is no longer there, and why. */
  readonly removed: Placed<number> | undefined;
  /** The date from which it is no longer there, and why. */
  readonly removedBecause: Placed<string> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** A risk assessment for one target and one part of the tree. */
export interface Risk extends Headed {
  readonly target: Placed<string>;
  readonly defect: Placed<string> | undefined;
  /** Likelihood of failure. */
  readonly failure: Placed<'improbable' | 'possible' | 'probable' | 'imminent'> | undefined;
  /** Likelihood of impacting the target. */
  readonly impact: Placed<'very low' | 'low' | 'medium' | 'high'> | undefined;
  /** Consequences for the target. */
  readonly consequences: Placed<'negligible' | 'minor' | 'significant' | 'severe'> | undefined;
  /** The resulting risk rating. */
  readonly rating: Placed<'low' | 'moderate' | 'high' | 'extreme'> | undefined;
  /** The time frame of the assessment. */
  readonly within: Placed<Quantity> | undefined;
  /** Why the likelihood of failure is rated lower than the figures or the rating codes allow. */
  readonly because: Placed<string> | undefined;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** The person who rated it, if not the inspector on that date. */
  readonly by: Placed<string> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** An overhead power line nearby. */
export interface Conductor extends Headed, ReadAgain<Conductor> {
  readonly name: Placed<string>;
  /** Nominal voltage, as stated by the utility, and between what. If that is not stated, the stricter reading counts. */
  readonly voltage: Placed<Quantity> | undefined;
  /** Nominal voltage, as stated by the utility, and between what. If that is not stated, the stricter reading counts. */
  readonly reference: Placed<'between phases' | 'to ground'> | undefined;
  /** Phases within reach of the work; several if not stated. */
  readonly phases: Placed<'one' | 'several'> | undefined;
  /** Smallest distance to the crown or to the work. */
  readonly distance: Placed<Quantity> | undefined;
  /** Smallest horizontal distance from the outer conductors to the crown or to the work; for regions where everything above or below a line is too close. */
  readonly aside: Placed<Quantity> | undefined;
  /** Minimum distance that the owner of the line allows the crew in writing, and the document. It counts only where the law leaves the distance to the owner or has none for the qualification of the crew. */
  readonly agreed: (Span & {
    readonly distance: Placed<Quantity>;
    readonly because: string;
  }) | undefined;
  /** Height above ground. */
  readonly height: Placed<Quantity> | undefined;
  /** Days on which the utility has the line de-energized and grounded. */
  readonly dead: Window | undefined;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** The date the line was taken down, and why. */
  readonly removed: Placed<number> | undefined;
  /** The date the line was taken down, and why. */
  readonly removedBecause: Placed<string> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** A search for nests. */
export interface NestCheck extends Headed {
  readonly date: Placed<number>;
  readonly from: Placed<'ground' | 'drone' | 'rope' | 'lift' | 'platform' | 'window' | Unread>;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** Distance kept from the crown or nest. */
  readonly standOff: Placed<Quantity> | undefined;
  /** What was found. */
  readonly found: readonly (Span & {
    readonly use: 'none' | 'active' | 'old' | 'unclear';
    readonly species: SpeciesName | undefined;
    readonly height: Placed<Quantity> | undefined;
  })[];
  /** A photograph: its file, the distance to the subject, and, if not in the file, where the camera looked, the 35 mm-equivalent focal length and the width in pixels. */
  readonly photos: readonly (Span & {
    readonly path: string;
    readonly distance: Placed<Quantity> | undefined;
    readonly toward: number | undefined;
    readonly focal: Placed<Quantity> | undefined;
    readonly pixels: Placed<Quantity> | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** A search for bats and their roosts. */
export interface BatCheck extends Headed {
  readonly date: Placed<number>;
  readonly from: Placed<'ground' | 'drone' | 'rope' | 'lift' | 'platform' | 'window' | Unread>;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** What was found. */
  readonly found: readonly (Span & {
    readonly use: 'none' | 'signs' | 'roost' | 'maternity roost' | 'unclear';
    readonly defect: Placed<string> | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** A pull test: its date and the direction in which the tree was pulled. The figures are those of the greatest load, read together. */
export interface PullTest extends Headed {
  readonly date: Placed<number>;
  readonly toward: number | undefined;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** Force in the rope. */
  readonly force: Placed<Quantity> | undefined;
  /** Height above ground at which the rope holds the stem, and its angle from the horizontal. Off axis: how far that point lies from the axis of the root plate in the direction of the pull. */
  readonly ropeHeight: Placed<Quantity> | undefined;
  /** Height above ground at which the rope holds the stem, and its angle from the horizontal. Off axis: how far that point lies from the axis of the root plate in the direction of the pull. */
  readonly slope: Placed<Quantity> | undefined;
  /** Height above ground at which the rope holds the stem, and its angle from the horizontal. Off axis: how far that point lies from the axis of the root plate in the direction of the pull. */
  readonly offset: Placed<Quantity> | undefined;
  /** Inclination of the root plate in the direction of the pull, at the stem base on two sides. */
  readonly inclinations: readonly Placed<Quantity>[];
  /** Strain of the outermost wood, and its height above ground. */
  readonly strains: readonly (Span & {
    readonly strain: Placed<Quantity>;
    readonly height: Placed<Quantity>;
  })[];
  /** Condition of the ground during the test. */
  readonly soil: Placed<'moist' | 'wet' | 'dry' | 'frozen'> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** A sight line past the tree: something to keep screened, or a vista to open. */
export interface View extends Headed, ReadAgain<View> {
  readonly name: Placed<string>;
  /** Eye height of the viewer, and horizontal distance from the trunk. */
  readonly eye: Placed<Quantity> | undefined;
  /** Eye height of the viewer, and horizontal distance from the trunk. */
  readonly away: Placed<Quantity> | undefined;
  /** Height range of what is to stay screened, and its distance beyond the trunk. */
  readonly hide: (Span & {
    readonly object: Placed<Quantity>;
    readonly beyond: Placed<Quantity>;
  }) | undefined;
  /** Height range of what is to come into view, and its distance beyond the trunk. */
  readonly open: (Span & {
    readonly object: Placed<Quantity>;
    readonly beyond: Placed<Quantity>;
  }) | undefined;
  /** The date of the inspection that recorded it, if not the last one above. */
  readonly seen: number | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** A prescription: the work to be done. */
export interface Prescription extends Headed {
  readonly id: Placed<string>;
  readonly kind: Placed<'keep' | 'watch' | 'reduce' | 'thin' | 'raise' | 'clean' | 'restore' | 'pollard' | 'cable' | 'brace' | 'prop' | 'guy' | 'investigate' | 'monolith' | 'fell' | Unread>;
  /** Height before and after. */
  readonly height: (Span & {
    readonly from: Placed<Quantity>;
    readonly to: Placed<Quantity>;
  }) | undefined;
  /** Crown spread before and after. */
  readonly spread: (Span & {
    readonly from: Placed<Quantity>;
    readonly to: Placed<Quantity>;
  }) | undefined;
  /** Height of the crown base before and after raising. */
  readonly base: (Span & {
    readonly from: Placed<Quantity>;
    readonly to: Placed<Quantity>;
  }) | undefined;
  /** Length of a limb or stem before and after it is shortened. */
  readonly shortened: readonly (Span & {
    readonly part: Placed<string>;
    readonly from: Placed<Quantity>;
    readonly to: Placed<Quantity>;
  })[];
  /** Height above ground at which a support holds the stem or limb, and its slope; any slope up to 30 deg if not stated. */
  readonly fixed: Placed<Quantity> | undefined;
  /** Height above ground at which a support holds the stem or limb, and its slope; any slope up to 30 deg if not stated. */
  readonly slope: Placed<Quantity> | undefined;
  /** Working load of a support: that of its weakest piece, terminations and bolts included. */
  readonly rated: Placed<Quantity> | undefined;
  /** Breaking load of the weakest piece of a support; it may carry a fifth of it if no working load is stated. */
  readonly breaking: Placed<Quantity> | undefined;
  /** Pruning dose: share of the live foliage removed. */
  readonly dose: Placed<Quantity> | undefined;
  /** Largest cut; and at reduction cuts, the smallest ratio of the diameter of the remaining lateral to that of the part removed. */
  readonly cutDiameter: Placed<Quantity> | undefined;
  /** Largest cut; and at reduction cuts, the smallest ratio of the diameter of the remaining lateral to that of the part removed. */
  readonly laterals: Placed<Quantity> | undefined;
  /** Pruning method; inner branches means lion-tailing, which is never recommended. */
  readonly methods: readonly Placed<'collar cuts' | 'reduction cuts' | 'heading cuts' | 'flush cuts' | 'topping' | 'inner branches'>[];
  /** Wound dressing: none, except against certain wilts. */
  readonly paint: Placed<'none' | 'wounds painted'> | undefined;
  /** The reason for it: defects by name; or a stem or limb by name (trunk for the main stem), for every defect on it and its union. */
  readonly for: readonly Placed<string>[];
  /** Stems or limbs to remove entirely. */
  readonly remove: readonly Placed<string>[];
  /** Work window: first and last day. */
  readonly between: Window | undefined;
  /** Priority of the work. */
  readonly priority: Placed<'immediate' | 'high' | 'moderate' | 'low'> | undefined;
  /** Number of stages, a year apart. */
  readonly stages: Placed<Quantity> | undefined;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
  /** The person who prescribes it. */
  readonly by: Placed<string> | undefined;
  /** The date it was prescribed, if not that of the last inspection. */
  readonly dated: number | undefined;
  /** The crew that is to do it. */
  readonly crew: Placed<string> | undefined;
  /** Estimated time of the crew on site, in hours. */
  readonly hours: Placed<Quantity> | undefined;
  /** Price before tax, with its currency (ISO 4217); the report sums the prices of a site into a quote for the client. */
  readonly price: (Span & {
    readonly amount: Placed<Quantity>;
    readonly currency: 'USD' | 'CAD' | 'MXN' | 'EUR' | 'GBP' | 'CHF' | 'DKK' | 'SEK' | 'NOK' | 'PLN' | 'AUD' | 'NZD';
  }) | undefined;
  /** Radius of the drop zone, kept clear of people during the work. */
  readonly exclusion: Placed<Quantity> | undefined;
  /** The heaviest single piece to be lowered or lifted, by mass or by size: its length, and its diameter or those of both ends. */
  readonly piece: (Span & {
    readonly mass: Placed<Quantity> | undefined;
    readonly length: Placed<Quantity> | undefined;
    readonly diameter: Placed<Quantity> | undefined;
    readonly narrow: Placed<Quantity> | undefined;
  }) | undefined;
  /** How the piece is lowered: caught, or let run where there is room; how far its center of gravity falls before the rope loads, the length of rope under load, and the angle between its legs at the block. */
  readonly rigged: (Span & {
    readonly how: 'caught' | 'let run';
    readonly drop: Placed<Quantity> | undefined;
    readonly rope: Placed<Quantity> | undefined;
    readonly legs: Placed<Quantity> | undefined;
  }) | undefined;
  /** The stem or limb that the block hangs on (trunk for the main stem), its height above ground, and the diameter there. */
  readonly anchor: (Span & {
    readonly part: Placed<string>;
    readonly height: Placed<Quantity>;
    readonly diameter: Placed<Quantity> | undefined;
  }) | undefined;
  /** How a tree is felled: dismantled in pieces, by crane, or whole in one direction. */
  readonly takedown: (Span & {
    readonly how: 'dismantled' | 'by crane' | 'whole';
    readonly toward: number | undefined;
  }) | undefined;
  /** Log lengths to buck for salvage, from the butt up. */
  readonly logs: readonly Placed<Quantity>[];
  /** Whether the wood stays on site, or where it goes. Some places restrict moving the wood of pest hosts. */
  readonly wood: (Span & {
    readonly where: 'stays' | 'leaves';
    readonly to: string | undefined;
  }) | undefined;
  /** Treatment of the stump. */
  readonly stump: (Span & {
    readonly what: 'grind' | 'leave';
    readonly size: Placed<Quantity> | undefined;
  }) | undefined;
  /** Replacement planting. */
  readonly replacement: (Span & {
    readonly count: number;
    readonly species: SpeciesName | undefined;
    readonly text: string | undefined;
  }) | undefined;
  /** The permit for this work. */
  readonly permit: (Span & {
    readonly number: Placed<string>;
    readonly until: number | undefined;
  }) | undefined;
  /** The date on which the authority was notified of this work, where the law requires notice. */
  readonly notice: (Span & {
    readonly given: number;
    readonly to: string | undefined;
  }) | undefined;
  /** What allows this work in a closed season: the order or the legal exception, and its last day. */
  readonly exemption: (Span & {
    readonly by: string;
    readonly until: number | undefined;
  }) | undefined;
  /** An earlier prescription that this one replaces. */
  readonly replaces: Placed<string> | undefined;
  /** Prescriptions to which this one is an alternative; only one of them will be done, and the work record shows which. */
  readonly alternatives: readonly Placed<string>[];
  /** The date it was withdrawn, and why. */
  readonly withdrawn: Placed<number> | undefined;
  /** The date it was withdrawn, and why. */
  readonly withdrawnBecause: Placed<string> | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
  /** The one that it belongs to, by its day. */
  readonly inspection: Inspection | undefined;
}

/** Work done: under which prescription, and when. */
export interface Work extends Headed {
  readonly prescription: Placed<string>;
  readonly date: Placed<number>;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** The crew that did it. */
  readonly crew: Placed<string> | undefined;
  /** Pruning dose: share of the live foliage that was removed. */
  readonly dose: Placed<Quantity> | undefined;
  /** Height of the tree afterwards. */
  readonly height: Placed<Quantity> | undefined;
  /** Crown spread afterwards. */
  readonly spread: Placed<Quantity> | undefined;
  /** Height of the crown base afterwards. */
  readonly base: Placed<Quantity> | undefined;
  /** Largest cut made, and smallest lateral ratio left. */
  readonly cutDiameter: Placed<Quantity> | undefined;
  /** Largest cut made, and smallest lateral ratio left. */
  readonly laterals: Placed<Quantity> | undefined;
  /** What was left undone of the prescription or of this stage; it stays outstanding. */
  readonly unfinished: Placed<string> | undefined;
  /** A photograph of the tree afterwards; otherwise as at an inspection. */
  readonly photos: readonly (Span & {
    readonly path: string;
    readonly distance: Placed<Quantity> | undefined;
    readonly toward: number | undefined;
    readonly focal: Placed<Quantity> | undefined;
    readonly pixels: Placed<Quantity> | undefined;
  })[];
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** Further investigation, outstanding or completed. */
export interface FollowUp extends Headed {
  readonly id: Placed<string>;
  readonly kind: Placed<'re-inspection' | 'climbing inspection' | 'tomogram' | 'resistance drilling' | 'pull test' | 'probe' | 'root inspection' | 'nest check' | 'bat check' | Unread>;
  /** What to investigate: defects, or a stem or limb, by name. */
  readonly of: readonly Placed<string>[];
  /** Due date. */
  readonly due: Placed<number> | undefined;
  /** The date it was done. */
  readonly done: Placed<number> | undefined;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
  /** Estimated time of the crew on site, in hours. */
  readonly hours: Placed<Quantity> | undefined;
  /** Price before tax, with its currency (ISO 4217); the report sums the prices of a site into a quote for the client. */
  readonly price: (Span & {
    readonly amount: Placed<Quantity>;
    readonly currency: 'USD' | 'CAD' | 'MXN' | 'EUR' | 'GBP' | 'CHF' | 'DKK' | 'SEK' | 'NOK' | 'PLN' | 'AUD' | 'NZD';
  }) | undefined;
  /** Any other information worth keeping; reports include it. */
  readonly notes: readonly Placed<string>[];
}

/** An exception: a finding accepted by a named person, until a date and for a reason. */
export interface Accept extends Headed {
  readonly rule: Placed<string>;
  readonly subject: Placed<string> | undefined;
  /** The last day of the exception. */
  readonly until: Placed<number> | undefined;
  /** The person who did it, by the name in their person record. */
  readonly by: Placed<string> | undefined;
  /** The reason, for later readers. */
  readonly because: Placed<string> | undefined;
}


/** Fields that a tree has once, by their words. */
export const TREE_FIELDS = ['species', 'position', 'dbh', 'girth', 'height', 'taper', 'crown', 'live-crown', 'lean', 'hill', 'wind-factor', 'soil', 'age', 'vigor', 'stressed', 'dieback', 'protected', 'planted', 'felled'] as const;
export type TreeField = (typeof TREE_FIELDS)[number];

const NONE: readonly never[] = [];

/**
 * Empty facts by their head, every member in place: objects of one hidden class make a check of 10,000 trees in one file
 * a tenth faster.
 */
export const EMPTY_FACTS: Readonly<Record<string, (at: Span) => object>> = {
  'site': at => ({ kind: 'site', at, repeated: undefined, damage: undefined, name: undefined, region: undefined, position: undefined, altitude: undefined, ice: undefined, wind: undefined, hill: undefined, windFactor: undefined, galesFrom: undefined, client: undefined, firm: undefined, assignment: undefined, scope: undefined, procedure: undefined, limitations: NONE, hospital: undefined, muster: undefined, quote: undefined, interval: undefined, breastHeight: undefined, storms: NONE, grounds: undefined, conservationArea: undefined, airspace: undefined, notes: NONE }),
  'person': at => ({ kind: 'person', at, repeated: undefined, damage: undefined, id: undefined, name: undefined, qualifications: NONE, certificates: NONE, notes: NONE }),
  'crew': at => ({ kind: 'crew', at, repeated: undefined, damage: undefined, id: undefined, name: undefined, members: NONE, qualifications: NONE, rope: undefined, riggingLine: undefined, block: undefined, sling: undefined, crane: undefined, lift: undefined, language: undefined, notes: NONE }),
  'practice': at => ({ kind: 'practice', at, repeated: undefined, damage: undefined, name: undefined, notes: NONE, limits: NONE, seasons: NONE, approaches: NONE, severities: NONE }),
  'tree': at => ({ kind: 'tree', at, repeated: undefined, damage: undefined, tag: undefined, name: undefined, species: undefined, position: undefined, diameters: NONE, measuredAt: undefined, height: undefined, taper: undefined, crownBase: undefined, crownSpread: undefined, liveCrown: undefined, lean: undefined, hill: undefined, windFactor: undefined, soil: undefined, age: undefined, vigor: undefined, stressed: undefined, dieback: undefined, protection: undefined, formerly: NONE, planted: undefined, felled: undefined, photos: NONE, notes: NONE, inspections: NONE, parts: NONE, supports: NONE, defects: NONE, drillings: NONE, tomograms: NONE, joined: NONE, targets: NONE, risks: NONE, conductors: NONE, nestChecks: NONE, batChecks: NONE, pullTests: NONE, views: NONE, prescriptions: NONE, works: NONE, followUps: NONE, accepts: NONE, written: undefined, dated: undefined, lastDay: -Infinity, isSettled: true, hasLater: false }),
  'limit': at => ({ at, name: undefined, value: undefined, because: undefined, authorized: undefined }),
  'season': at => ({ at, season: undefined, days: undefined, because: undefined }),
  'approach': at => ({ at, distance: undefined, voltage: undefined, because: undefined }),
  'severity': at => ({ at, rule: undefined, level: undefined, because: undefined }),
  'inspection': at => ({ at, date: undefined, from: undefined, by: undefined, level: undefined, diameters: NONE, measuredAt: undefined, height: undefined, taper: undefined, crownBase: undefined, crownSpread: undefined, liveCrown: undefined, lean: undefined, soil: undefined, age: undefined, vigor: undefined, stressed: undefined, dieback: undefined, flown: undefined, tools: NONE, unseen: NONE, photos: NONE, notes: NONE }),
  'stem': at => ({ kind: 'stem', at, name: undefined, seen: undefined, from: undefined, facing: undefined, diameter: undefined, height: undefined, length: undefined, union: undefined, inclusion: undefined, unionWith: undefined, parent: undefined, lean: undefined, toward: undefined, foliage: undefined, crownBase: undefined, crownSpread: undefined, removed: undefined, removedBecause: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'limb': at => ({ kind: 'limb', at, name: undefined, seen: undefined, from: undefined, facing: undefined, diameter: undefined, height: undefined, length: undefined, union: undefined, inclusion: undefined, unionWith: undefined, parent: undefined, lean: undefined, toward: undefined, foliage: undefined, crownBase: undefined, crownSpread: undefined, removed: undefined, removedBecause: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'support': at => ({ at, id: undefined, kind: undefined, holds: NONE, seen: undefined, fixed: undefined, slope: undefined, rated: undefined, breaking: undefined, installed: undefined, installedBy: undefined, looks: NONE, removed: undefined, removedBecause: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'defect': at => ({ at, id: undefined, kind: undefined, part: undefined, height: undefined, facing: undefined, seen: undefined, state: undefined, diameter: undefined, across: undefined, bark: undefined, opening: undefined, depth: undefined, walls: NONE, length: undefined, width: undefined, runs: undefined, share: undefined, distance: undefined, toward: undefined, dug: undefined, species: undefined, closed: undefined, closedBecause: undefined, photos: NONE, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'drilling': at => ({ at, date: undefined, defect: undefined, by: undefined, height: undefined, error: undefined, walls: NONE, traces: NONE, notes: NONE }),
  'tomogram': at => ({ at, date: undefined, defect: undefined, by: undefined, height: undefined, error: undefined, walls: NONE, sounds: NONE, notes: NONE }),
  'joined': at => ({ at, defects: NONE, state: undefined, seen: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'target': at => ({ at, name: undefined, distance: undefined, toward: undefined, occupied: undefined, kind: undefined, seen: undefined, closed: undefined, removed: undefined, removedBecause: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'risk': at => ({ at, target: undefined, defect: undefined, failure: undefined, impact: undefined, consequences: undefined, rating: undefined, within: undefined, because: undefined, seen: undefined, by: undefined, notes: NONE, inspection: undefined }),
  'conductor': at => ({ at, name: undefined, voltage: undefined, reference: undefined, phases: undefined, distance: undefined, aside: undefined, agreed: undefined, height: undefined, dead: undefined, seen: undefined, removed: undefined, removedBecause: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'nest check': at => ({ at, date: undefined, from: undefined, by: undefined, standOff: undefined, found: NONE, photos: NONE, notes: NONE }),
  'bat check': at => ({ at, date: undefined, from: undefined, by: undefined, found: NONE, notes: NONE }),
  'pull test': at => ({ at, date: undefined, toward: undefined, by: undefined, force: undefined, ropeHeight: undefined, slope: undefined, offset: undefined, inclinations: NONE, strains: NONE, soil: undefined, notes: NONE }),
  'view': at => ({ at, name: undefined, eye: undefined, away: undefined, hide: undefined, open: undefined, seen: undefined, notes: NONE, inspection: undefined, earlier: NONE, older: undefined }),
  'prescription': at => ({ at, id: undefined, kind: undefined, height: undefined, spread: undefined, base: undefined, shortened: NONE, fixed: undefined, slope: undefined, rated: undefined, breaking: undefined, dose: undefined, cutDiameter: undefined, laterals: undefined, methods: NONE, paint: undefined, for: NONE, remove: NONE, between: undefined, priority: undefined, stages: undefined, because: undefined, by: undefined, dated: undefined, crew: undefined, hours: undefined, price: undefined, exclusion: undefined, piece: undefined, rigged: undefined, anchor: undefined, takedown: undefined, logs: NONE, wood: undefined, stump: undefined, replacement: undefined, permit: undefined, notice: undefined, exemption: undefined, replaces: undefined, alternatives: NONE, withdrawn: undefined, withdrawnBecause: undefined, notes: NONE, inspection: undefined }),
  'work': at => ({ at, prescription: undefined, date: undefined, by: undefined, crew: undefined, dose: undefined, height: undefined, spread: undefined, base: undefined, cutDiameter: undefined, laterals: undefined, unfinished: undefined, photos: NONE, notes: NONE }),
  'follow-up': at => ({ at, id: undefined, kind: undefined, of: NONE, due: undefined, done: undefined, by: undefined, because: undefined, hours: undefined, price: undefined, notes: NONE }),
  'accept': at => ({ at, rule: undefined, subject: undefined, until: undefined, by: undefined, because: undefined }),
};

/** Empty groups by head and member. */
export const EMPTY_GROUPS: Readonly<Record<string, (start: number, end: number) => object>> = {
  'site ice': (start, end) => ({ start, end, thickness: undefined, because: undefined }),
  'site wind': (start, end) => ({ start, end, speed: undefined, exposure: undefined, averaging: undefined, leafless: false }),
  'site hill': (start, end) => ({ start, end, flat: false, shape: undefined, high: undefined, halfLength: undefined, crest: false, distance: undefined, side: undefined }),
  'site windFactor': (start, end) => ({ start, end, factor: undefined, because: undefined }),
  'site quote': (start, end) => ({ start, end, number: undefined, until: undefined, tax: undefined }),
  'site storms': (start, end) => ({ start, end, date: undefined, text: undefined }),
  'site airspace': (start, end) => ({ start, end, controlled: false, authorizedUntil: undefined }),
  'person certificates': (start, end) => ({ start, end, number: undefined, until: undefined }),
  'crew riggingLine': (start, end) => ({ start, end, strength: undefined, elongation: undefined, spliced: false }),
  'crew crane': (start, end) => ({ start, end, mass: undefined, reach: undefined }),
  'tree taper': (start, end) => ({ start, end, diameter: undefined, height: undefined }),
  'tree lean': (start, end) => ({ start, end, angle: undefined, toward: undefined, course: undefined, crownAside: undefined, trunkAside: undefined }),
  'tree hill': (start, end) => ({ start, end, flat: false, shape: undefined, high: undefined, halfLength: undefined, crest: false, distance: undefined, side: undefined }),
  'tree windFactor': (start, end) => ({ start, end, factor: undefined, because: undefined }),
  'tree stressed': (start, end) => ({ start, end, none: false, cause: undefined, since: undefined }),
  'tree protection': (start, end) => ({ start, end, under: undefined, by: undefined, permit: undefined, until: undefined, scope: undefined }),
  'limit authorized': (start, end) => ({ start, end, by: undefined, until: undefined }),
  'inspection taper': (start, end) => ({ start, end, diameter: undefined, height: undefined }),
  'inspection lean': (start, end) => ({ start, end, angle: undefined, toward: undefined, course: undefined, crownAside: undefined, trunkAside: undefined }),
  'inspection stressed': (start, end) => ({ start, end, none: false, cause: undefined, since: undefined }),
  'inspection flown': (start, end) => ({ start, end, height: undefined, permission: undefined, overPeople: false, people: undefined, unseen: false, time: undefined, standOff: undefined }),
  'inspection photos': (start, end) => ({ start, end, path: undefined, distance: undefined, toward: undefined, focal: undefined, pixels: undefined }),
  'support looks': (start, end) => ({ start, end, date: undefined, by: undefined }),
  'defect opening': (start, end) => ({ start, end, closed: false, width: undefined, tall: undefined }),
  'defect runs': (start, end) => ({ start, end, course: undefined, soil: false }),
  'defect share': (start, end) => ({ start, end, share: undefined, of: undefined }),
  'defect photos': (start, end) => ({ start, end, path: undefined, distance: undefined, toward: undefined, focal: undefined, pixels: undefined }),
  'drilling traces': (start, end) => ({ start, end, path: undefined, bearing: undefined, threshold: undefined }),
  'tomogram sounds': (start, end) => ({ start, end, share: undefined, bearing: undefined }),
  'target closed': (start, end) => ({ start, end, from: undefined, until: undefined, by: undefined }),
  'conductor agreed': (start, end) => ({ start, end, distance: undefined, because: undefined }),
  'nest check found': (start, end) => ({ start, end, use: undefined, species: undefined, height: undefined }),
  'nest check photos': (start, end) => ({ start, end, path: undefined, distance: undefined, toward: undefined, focal: undefined, pixels: undefined }),
  'bat check found': (start, end) => ({ start, end, use: undefined, defect: undefined }),
  'pull test strains': (start, end) => ({ start, end, strain: undefined, height: undefined }),
  'view hide': (start, end) => ({ start, end, object: undefined, beyond: undefined }),
  'view open': (start, end) => ({ start, end, object: undefined, beyond: undefined }),
  'prescription height': (start, end) => ({ start, end, from: undefined, to: undefined }),
  'prescription spread': (start, end) => ({ start, end, from: undefined, to: undefined }),
  'prescription base': (start, end) => ({ start, end, from: undefined, to: undefined }),
  'prescription shortened': (start, end) => ({ start, end, part: undefined, from: undefined, to: undefined }),
  'prescription price': (start, end) => ({ start, end, amount: undefined, currency: undefined }),
  'prescription piece': (start, end) => ({ start, end, mass: undefined, length: undefined, diameter: undefined, narrow: undefined }),
  'prescription rigged': (start, end) => ({ start, end, how: undefined, drop: undefined, rope: undefined, legs: undefined }),
  'prescription anchor': (start, end) => ({ start, end, part: undefined, height: undefined, diameter: undefined }),
  'prescription takedown': (start, end) => ({ start, end, how: undefined, toward: undefined }),
  'prescription wood': (start, end) => ({ start, end, where: undefined, to: undefined }),
  'prescription stump': (start, end) => ({ start, end, what: undefined, size: undefined }),
  'prescription permit': (start, end) => ({ start, end, number: undefined, until: undefined }),
  'prescription notice': (start, end) => ({ start, end, given: undefined, to: undefined }),
  'prescription exemption': (start, end) => ({ start, end, by: undefined, until: undefined }),
  'work photos': (start, end) => ({ start, end, path: undefined, distance: undefined, toward: undefined, focal: undefined, pixels: undefined }),
  'follow-up price': (start, end) => ({ start, end, amount: undefined, currency: undefined }),
};
