/** Laws, and guidance of agencies under them. */

import type { SourceRow } from './source-row.ts';

export const laws = {
  mbta: {
    short: 'Migratory Bird Treaty Act',
    full: 'Migratory Bird Treaty Act of 1918, 16 U.S.C. 703-712.',
    url: 'https://www.law.cornell.edu/uscode/text/16/703',
    confidence: 'published',
  },
  bgepa: {
    short: 'Bald and Golden Eagle Protection Act',
    full: 'Bald and Golden Eagle Protection Act, 16 U.S.C. 668-668d.',
    url: 'https://www.law.cornell.edu/uscode/text/16/668',
    confidence: 'published',
  },
  'eagle-guidelines-2007': {
    short: 'National Bald Eagle Management Guidelines 2007',
    full: 'U.S. Fish and Wildlife Service. 2007. National Bald Eagle Management Guidelines.',
    confidence: 'published',
  },
  esa: {
    short: 'Endangered Species Act',
    full: 'Endangered Species Act of 1973, 16 U.S.C. 1531-1544. The northern long-eared bat has been listed as endangered since 2023-03-31.',
    url: 'https://www.law.cornell.edu/uscode/text/16/1531',
    confidence: 'from memory',
  },
  'ca-fgc-3503': {
    short: 'California Fish and Game Code 3503',
    full: 'California Fish and Game Code section 3503: taking, possessing or needlessly destroying the nest or eggs of any bird.',
    confidence: 'published',
  },
  'ca-fgc-3503-5': {
    short: 'California Fish and Game Code 3503.5',
    full: 'California Fish and Game Code section 3503.5: birds of prey, their nests and eggs.',
    confidence: 'published',
  },
  'ca-nest-conditions': {
    short: 'permit conditions, California',
    full: 'Conditions of approval and agreements of Californian agencies: City of San Leandro (1 February to 31 August; raptor nest 100 ft); Department of Fish and Wildlife 1600-2013-0356-R3 (passerines 15 March to 30 August, raptors 15 February to 15 September; survey 250, 500 and 1,000 ft); City of Pleasanton (passerines 75 ft, raptors 200 ft; survey repeated after a lapse of 7 days); Ventura County coastal zoning ordinance 8178-7.7.4.1.1 (1 January to 15 September; survey within 3 days of work; 300 and 500 ft). They disagree; no number holds for the whole state.',
    url: 'http://ventura-ca.elaws.us/code/coor_div8_ch1.1_art8_sec8178-7.7.4.1.1',
    confidence: 'published',
  },
  'wca-1981': {
    short: 'Wildlife and Countryside Act 1981',
    full: 'Wildlife and Countryside Act 1981 (c. 69), sections 1 and 9, Schedules 1 and 5.',
    url: 'https://www.legislation.gov.uk/ukpga/1981/69',
    confidence: 'published',
  },
  'habitats-regs-2017': {
    short: 'Habitats Regulations 2017',
    full: 'Conservation of Habitats and Species Regulations 2017 (S.I. 2017/1012), regulation 43.',
    url: 'https://www.legislation.gov.uk/uksi/2017/1012',
    confidence: 'published',
  },
  'bnatschg-44': {
    short: 'BNatSchG § 44(1)',
    full: 'Bundesnaturschutzgesetz (Germany), section 44 paragraph 1: breeding and resting places of protected animals are not damaged or destroyed, and strictly protected species and European birds not disturbed significantly.',
    url: 'https://www.gesetze-im-internet.de/bnatschg_2009/__44.html',
    confidence: 'published',
  },
  'osha-333': {
    short: '29 CFR 1910.333(c)(3)(i)',
    full: '29 CFR 1910.333(c)(3)(i), Selection and use of work practices: unqualified persons near overhead lines.',
    url: 'https://www.law.cornell.edu/cfr/text/29/1910.333',
    confidence: 'published',
  },
  'osha-269': {
    short: '29 CFR 1910.269',
    full: '29 CFR 1910.269, Electric power generation, transmission, and distribution: definition of line-clearance tree trimming, paragraph (r), Table R-6.',
    url: 'https://www.law.cornell.edu/cfr/text/29/1910.269',
    confidence: 'published',
  },
  z133: {
    short: 'ANSI Z133',
    full: 'ANSI Z133 Safety Requirements for Arboricultural Operations. American National Standard.',
    confidence: 'from memory',
  },
  'part-107': {
    short: '14 CFR Part 107',
    full: '14 CFR Part 107, Small unmanned aircraft systems, as amended with effect from 2021-04-21.',
    url: 'https://www.law.cornell.edu/cfr/text/14/part-107',
    confidence: 'published',
  },
  'nps-14-05': {
    short: 'NPS Policy Memorandum 14-05',
    full: 'National Park Service. 2014. Policy Memorandum 14-05, Unmanned aircraft: interim policy (closures under 36 CFR 1.5).',
    confidence: 'published',
  },
} as const satisfies Record<string, SourceRow>;
