/** Papers, books, standards and agencies’ advice. */

import type { SourceRow } from './source-row.ts';

export const works = {
  practice: {
    short: 'common practice',
    full: 'Common practice of the trade; no published source. Override it where the office works otherwise.',
    confidence: 'common practice',
  },
  'wagener-1963': {
    short: 'Wagener 1963',
    full: 'Wagener, W. W. 1963. Judging hazard from native trees in California recreational areas: a guide for professional foresters. USDA Forest Service, Research Paper PSW-P1.',
    confidence: 'published',
  },
  'coder-1989': {
    short: 'Coder 1989',
    full: "Coder, K. D. 1989. Should you or shouldn't you fill tree hollows? Grounds Maintenance 24(9):68-70, 72-73, 100.",
    confidence: 'from memory',
  },
  'smiley-fraedrich-1992': {
    short: 'Smiley and Fraedrich 1992',
    full: 'Smiley, E. T., and B. R. Fraedrich. 1992. Determining strength loss from decay. Journal of Arboriculture 18(4):201-204.',
    confidence: 'published',
  },
  'mattheck-breloer-1994': {
    short: 'Mattheck and Breloer 1994',
    full: 'Mattheck, C., and H. Breloer. 1994. The Body Language of Trees: a handbook for failure analysis. HMSO, London (Research for Amenity Trees 4).',
    confidence: 'from memory',
  },
  'mattheck-2002': {
    short: 'Mattheck et al. 2002',
    full: 'Mattheck, C., K. Bethge, R. Kappel, P. Mueller, and I. Tesari. 2002. Failure modes for trees and related criteria. In: Wind Effects on Trees, University of Karlsruhe, 2003.',
    confidence: 'from memory',
  },
  'kane-2001': {
    short: 'Kane, Ryan and Bloniarz 2001',
    full: 'Kane, B., D. Ryan, and D. V. Bloniarz. 2001. Comparing formulae that assess strength loss due to decay in trees. Journal of Arboriculture 27(2):78-87.',
    confidence: 'published',
  },
  'kane-ryan-2004': {
    short: 'Kane and Ryan 2004',
    full: 'Kane, B., and H. D. P. Ryan. 2004. The accuracy of formulas used to assess strength loss due to decay in trees. Journal of Arboriculture 30(6):347-356.',
    confidence: 'published',
  },
  'kane-2007': {
    short: 'Kane 2007',
    full: 'Kane, B. 2007. Branch strength of Bradford pear (Pyrus calleryana var. Bradford). Arboriculture & Urban Forestry 33(4):283-291.',
    confidence: 'from memory',
  },
  'smiley-2003': {
    short: 'Smiley 2003',
    full: 'Smiley, E. T. 2003. Does included bark reduce the strength of codominant stems? Journal of Arboriculture 29(2):104-106.',
    confidence: 'published',
  },
  'kane-clouston-2008': {
    short: 'Kane and Clouston 2008',
    full: 'Kane, B., and P. Clouston. 2008. Tree pulling tests of large shade trees in the genus Acer. Arboriculture & Urban Forestry 34(2). Table 4 was read; title and authors are from memory.',
    confidence: 'from memory',
  },
  'slater-ennos-2015': {
    short: 'Slater and Ennos 2015',
    full: 'Slater, D., and A. R. Ennos. 2015. The level of occlusion of included bark affects the strength of bifurcations in hazel (Corylus avellana L.). Arboriculture & Urban Forestry 41(4):194-207. The abstract was read.',
    confidence: 'published',
  },
  'ehs-strand': {
    short: 'extra-high-strength strand',
    full: 'Breaking loads of extra-high-strength steel strand (3/16 to 1/2 in), from memory; check them against the certificate of the strand.',
    confidence: 'from memory',
  },
  'usda-hazard-codes': {
    short: 'USDA hazard rating codes',
    full: 'Guide to hazard rating codes, of: Pokorny, J. D. (ed.). 2003. Urban Tree Risk Management: a community guide to program design and implementation. USDA Forest Service, Northeastern Area, NA-TP-03-03. The codes were read in a secondary copy; that they are this book’s is from memory.',
    confidence: 'from memory',
  },
  'usda-hazard-trees-1996': {
    short: 'USDA NA-FR-01-96',
    full: 'USDA Forest Service, Northeastern Area. 1996. How to recognize hazardous defects in trees. NA-FR-01-96. Read in secondary copies.',
    confidence: 'from memory',
  },
  'tennessee-forestry': {
    short: 'Tennessee forestry',
    full: 'State forestry of Tennessee, on decay behind external signs: conks 100 %, open fire scars 99 %, closed ones 60 % and more, dead or broken tops 60 %, unsound stubs 30 % of the trees.',
    confidence: 'published',
  },
  'schwarze-baum-2000': {
    short: 'Schwarze and Baum 2000',
    full: 'Schwarze, F. W. M. R., and S. Baum. 2000. Mechanisms of reaction zone penetration by decay fungi in wood of beech. Abstract; that the figures are this paper’s is from memory. New Phytologist.',
    confidence: 'from memory',
  },
  'kersten-schwarze': {
    short: 'Kersten and Schwarze',
    full: 'Kersten, W., and F. W. M. R. Schwarze. Development of decay in the sapwood of trees wounded by the use of decay-detecting devices. Arboricultural Journal. Abstract.',
    confidence: 'from memory',
  },
  'fungi-guide': {
    short: 'guide to decay fungi',
    full: 'A practitioners’ guide to decay fungi of urban trees, read in a stored copy whose title page was not seen.',
    confidence: 'from memory',
  },
  'umass-fungi': {
    short: 'UMass fact sheet on decay fungi',
    full: 'University of Massachusetts Extension, Center for Agriculture, Food and the Environment. Fact sheet 25: wood-decay fungi of landscape trees.',
    confidence: 'published',
  },
  'meripilus-2021': {
    short: 'Croat. j. for. eng. 2021',
    full: 'On root and stem-base decay of beech by Meripilus giganteus. Croatian Journal of Forest Engineering, 2021. The abstract was read.',
    confidence: 'published',
  },
  'gilman-2003': {
    short: 'Gilman 2003',
    full: 'Gilman, E. F. 2003. Branch-to-stem diameter ratio affects strength of attachment. Journal of Arboriculture 29(5):291-294.',
    confidence: 'from memory',
  },
  'dahle-2022': {
    short: 'Dahle et al. 2022',
    full: 'Dahle, G. A., R. T. Eckenrode, E. T. Smiley, D. DeVallance, and I. Holásková. 2022. Can mechanical strain and aspect ratio be used to determine codominant unions in red maple without included bark. Forests 13:1007.',
    confidence: 'published',
  },
  'wonn-ohara-2001': {
    short: "Wonn and O'Hara 2001",
    full: "Wonn, H. T., and K. L. O'Hara. 2001. Height:diameter ratios and stability relationships for four northern Rocky Mountain tree species. Western Journal of Applied Forestry 16(2):87-94.",
    confidence: 'published',
  },
  'a300-1-2008': {
    short: 'ANSI A300 (Part 1)-2008',
    full: 'ANSI A300 (Part 1)-2008 Pruning. American National Standard for Tree Care Operations: Tree, Shrub, and Other Woody Plant Management, Standard Practices. Later editions (2017, 2023) set the dose by objective.',
    confidence: 'from memory',
  },
  'a300-9': {
    short: 'ANSI A300 (Part 9)',
    full: 'ANSI A300 (Part 9) Tree Risk Assessment. American National Standard for Tree Care Operations.',
    confidence: 'from memory',
  },
  'bmp-pruning': {
    short: 'Best Management Practices: Pruning',
    full: 'Gilman, E. F., and S. J. Lilly. 2008. Best Management Practices: Tree Pruning, 2nd edition. International Society of Arboriculture.',
    confidence: 'from memory',
  },
  'bmp-risk-2017': {
    short: 'Best Management Practices: Tree Risk Assessment 2017',
    full: 'Smiley, E. T., N. Matheny, and S. Lilly. 2017. Best Management Practices: Tree Risk Assessment, 2nd edition. International Society of Arboriculture.',
    confidence: 'published',
  },
  'gilman-pruning': {
    short: 'Gilman, Pruning',
    full: 'Gilman, E. F. 2011. An Illustrated Guide to Pruning, 3rd edition. Delmar.',
    confidence: 'from memory',
  },
  'bs-3998-2010': {
    short: 'BS 3998:2010',
    full: 'BS 3998:2010 Tree work. Recommendations. British Standards Institution.',
    confidence: 'from memory',
  },
  'bs-5837-2012': {
    short: 'BS 5837:2012',
    full: 'BS 5837:2012 Trees in relation to design, demolition and construction. Recommendations. British Standards Institution.',
    confidence: 'from memory',
  },
  'as-4970-2009': {
    short: 'AS 4970-2009',
    full: 'AS 4970-2009 Protection of trees on development sites. Standards Australia.',
    confidence: 'from memory',
  },
  'ztv-baumpflege': {
    short: 'ZTV-Baumpflege 2017',
    full: 'Forschungsgesellschaft Landschaftsentwicklung Landschaftsbau. 2017. ZTV-Baumpflege: Zusätzliche Technische Vertragsbedingungen und Richtlinien für Baumpflege.',
    confidence: 'from memory',
  },
  'dujesiefken-liese-2008': {
    short: 'Dujesiefken and Liese 2008',
    full: 'Dujesiefken, D., and W. Liese. 2008. Das CODIT-Prinzip: von den Bäumen lernen für eine fachgerechte Baumpflege. Haymarket Media, Braunschweig.',
    confidence: 'from memory',
  },
  'uf-compartmentalisation': {
    short: 'University of Florida',
    full: 'Gilman, E. F., University of Florida: Ability to compartmentalize decay differs among trees; after Lonsdale 1999, Dujesiefken 1991 and observation.',
    url: 'https://hort.ifas.ufl.edu/woody/compartmentalization.shtml',
    confidence: 'published',
  },
  'wi-dnr-pruning': {
    short: 'Wisconsin DNR, pruning',
    full: 'Kissinger, D., Wisconsin Department of Natural Resources, 2015: pruning takes no more than 25 percent of the live crown.',
    confidence: 'published',
  },
  'matheny-clark-1998': {
    short: 'Matheny and Clark 1998',
    full: 'Matheny, N., and J. R. Clark. 1998. Trees and Development: a technical guide to preservation of trees during land development. International Society of Arboriculture.',
    confidence: 'from memory',
  },
  'wood-handbook': {
    short: 'Wood Handbook',
    full: 'Forest Products Laboratory. 2021. Wood handbook: wood as an engineering material. General Technical Report FPL-GTR-282 (2010: FPL-GTR-190), Tables 5-3a, 5-3b and 5-5b. USDA Forest Service, Madison, Wisconsin.',
    confidence: 'published',
  },
  'miles-smith-2009': {
    short: 'Miles and Smith 2009',
    full: 'Miles, P.D., and W.B. Smith. 2009. Specific gravity and other properties of wood and bark for 156 tree species found in North America. Research Note NRS-RN-38. USDA Forest Service, Newtown Square, Pennsylvania. By the table of reference species of the national forest inventory.',
    confidence: 'published',
  },
  'detter-2008': {
    short: 'Detter et al. 2008',
    full: 'Detter, A., C. Cowell, L. McKeown, and P. Howard. 2008. Evaluation of current rigging and dismantling practices used in arboriculture. Health and Safety Executive, Research Report RR668. Its chapter 8 read in a quotation.',
    confidence: 'from memory',
  },
  'log-scaling-handbook': {
    short: 'National Forest Log Scaling Handbook',
    full: 'USDA Forest Service. National Forest Log Scaling Handbook, FSH 2409.11.',
    confidence: 'published',
  },
  'ryan-1976': {
    short: 'Ryan, Joiner and Ryan 1976',
    full: 'Ryan, T. A., B. L. Joiner, and B. F. Ryan. 1976. The Minitab Student Handbook. Duxbury Press (the 31 felled black cherry trees).',
    confidence: 'from memory',
  },
  'portland-birds': {
    short: 'City of Portland 2017',
    full: 'City of Portland, Bureau of Environmental Services. 2017. Avoiding impacts on nesting birds: best management practices for vegetation and construction projects, version 3.0. The City of Lake Oswego gives the same seasons: early from 1 February, main from 15 April, over after 31 July.',
    url: 'https://www.ci.oswego.or.us/trees/tree-care-and-maintenance',
    confidence: 'published',
  },
  'mn-dnr-oak-wilt': {
    short: 'Minnesota DNR',
    full: 'Minnesota Department of Natural Resources, oak wilt: no pruning of oaks from April through July.',
    confidence: 'published',
  },
  'wi-dnr-oak-wilt': {
    short: 'Wisconsin DNR',
    full: 'Wisconsin Department of Natural Resources, oak wilt: no pruning, wounding or harvesting of oaks, generally from April through July.',
    url: 'https://content.govdelivery.com/accounts/WIDNR/bulletins/34c7261',
    confidence: 'published',
  },
  'mi-dnr-oak-wilt': {
    short: 'Michigan DNR',
    full: 'Michigan Department of Natural Resources, oak wilt: no pruning of oaks from 15 April to 15 July; some of its texts begin in mid-March.',
    confidence: 'published',
  },
  'tx-oak-wilt': {
    short: 'Texas A&M Forest Service',
    full: 'Texas A&M Forest Service, oak wilt: no pruning or wounding of oaks from February through June; wounds on oaks are painted all year.',
    confidence: 'published',
  },
  'ia-dnr-oak-wilt': {
    short: 'Iowa DNR',
    full: 'Iowa Department of Natural Resources, forest health: no pruning of oaks between the end of March and the start of October; in an early spring from mid-March.',
    url: 'https://iowadnr.gov/test/About-DNR/DNR-News-Releases/ArticleID/1775/Time-to-Stop-Pruning-Oaks',
    confidence: 'published',
  },
  'mo-oak-wilt': {
    short: 'Missouri Department of Conservation',
    full: 'Missouri Department of Conservation, oak wilt: no pruning of oaks from mid-March through June.',
    url: 'https://short.mdc.mo.gov/ZNT',
    confidence: 'published',
  },
  'ny-dec-oak-wilt': {
    short: 'New York DEC',
    full: 'New York State Department of Environmental Conservation, 2017, oak wilt: oaks are pruned between October and February.',
    confidence: 'published',
  },
  'uc-pines': {
    short: 'University of California',
    full: 'University of California, Agriculture and Natural Resources: pines are pruned between October and January, so that cuts draw no bark beetles, pitch moths or gall rust.',
    url: 'https://ucanr.edu/blog/fresno-gardening-green/article/pruning-pine-trees-best-done-coldest-months-year',
    confidence: 'published',
  },
  'state-oak-wilt': {
    short: 'state forest services',
    full: 'Notices of state forest and extension services about oak wilt; windows differ from state to state and from year to year.',
    confidence: 'from memory',
  },
  'fire-blight': {
    short: 'extension services, fire blight',
    full: 'Notices of extension services about fire blight (Erwinia amylovora): hosts of the rose family are pruned in dormancy, never in wet bloom.',
    confidence: 'from memory',
  },
  'silver-leaf': {
    short: 'Royal Horticultural Society, silver leaf',
    full: 'Royal Horticultural Society, advice on silver leaf (Chondrostereum purpureum): plums and cherries are pruned in dry weather in summer, after fruiting.',
    confidence: 'from memory',
  },
  'drone-swifts-2022': {
    short: 'Mesquita et al. 2022',
    full: 'Mesquita, G. P., J. D. Rodríguez-Teijeiro, S. A. Wich, and M. Mulero-Pázmány. 2022. Measuring disturbance at swift breeding colonies due to the visual aspects of a drone. Current Zoology.',
    confidence: 'published',
  },
  'vas-2015': {
    short: 'Vas et al. 2015',
    full: 'Vas, E., A. Lescroël, O. Duriez, G. Boguszewski, and D. Grémillet. 2015. Approaching birds with drones: first experiments and ethical guidelines. Biology Letters 11:20140754.',
    confidence: 'from memory',
  },
  'asce-7-10': {
    short: 'ASCE 7-10',
    full: 'ASCE/SEI 7-10 Minimum Design Loads for Buildings and Other Structures, Table 27.3-1. American Society of Civil Engineers.',
    confidence: 'from memory',
  },
  'asce-7-topography': {
    short: 'ASCE 7, topographic factor',
    full: 'ASCE/SEI 7 Minimum Design Loads for Buildings and Other Structures, topographic factor Kzt. American Society of Civil Engineers. Partly read in a building code that copies it.',
    confidence: 'from memory',
  },
  'en-1991-1-4': {
    short: 'EN 1991-1-4',
    full: 'EN 1991-1-4 Eurocode 1: Actions on structures. Part 1-4: General actions. Wind actions, section 4.',
    confidence: 'from memory',
  },
  'vollsinger-2005': {
    short: 'Vollsinger et al. 2005',
    full: 'Vollsinger, S., S.J. Mitchell, K.E. Byrne, M.D. Novak, and M. Rudnicki. 2005. Wind tunnel measurements of crown streamlining and drag relationships for several hardwood species. Canadian Journal of Forest Research 35(5):1238-1249.',
    confidence: 'published',
  },
  'rudnicki-2004': {
    short: 'Rudnicki et al. 2004',
    full: 'Rudnicki, M., S.J. Mitchell, and M.D. Novak. 2004. Wind tunnel measurements of crown streamlining and drag relationships for three conifer species. Canadian Journal of Forest Research 34(3):666-676.',
    confidence: 'published',
  },
  'smiley-2008': {
    short: 'Smiley 2008',
    full: 'Smiley, E. T. 2008. Root pruning and stability of young willow oak. Arboriculture & Urban Forestry 34(2):123-128. The abstract was read.',
    confidence: 'published',
  },
  'smiley-2014': {
    short: 'Smiley, Holmes and Fraedrich 2014',
    full: 'Smiley, E. T., L. Holmes, and B. R. Fraedrich. 2014. Pruning of buttress roots and stability changes of red maple (Acer rubrum). Arboriculture & Urban Forestry 40(4):230-236. The abstract was read.',
    confidence: 'published',
  },
  'pallafray-2024': {
    short: 'Pallafray, Sivarajah and Ruel 2024',
    full: 'Pallafray, C., S. Sivarajah, and J.-C. Ruel. 2024. Impact of root cutting on Acer platanoides and Tilia cordata tree stability in urban parks: a case study in Quebec City, Canada. Forests 15:1041. The abstract was read.',
    confidence: 'published',
  },
  'detter-2023': {
    short: 'Detter, Rust and Krišāns 2023',
    full: 'Detter, A., S. Rust, and O. Krišāns. 2023. Experimental test of non-destructive methods to assess the anchorage of trees. Forests 14:533. Abstract and tables were read.',
    confidence: 'published',
  },
  'wessolly-erb-1998': {
    short: 'Wessolly and Erb 1998',
    full: 'Wessolly, L., and M. Erb. 1998. Handbuch der Baumstatik und Baumkontrolle. Patzer Verlag, Berlin.',
    confidence: 'from memory',
  },
} as const satisfies Record<string, SourceRow>;
