/**
 * Bark in per cent of the volume of the wood, by the table of reference species of the US national forest inventory,
 * whose values are those of Miles and Smith 2009 (NRS-RN-38). Read in a public copy of the whole table.
 *
 * A line: genus and its mean (of a genus without one the greatest of its species); then what is known of species by
 * themselves, each figure before the epithets that have it.
 */

export const barkRows = `
Abies 11.76: 10.8 lasiocarpa magnifica procera, 12 balsamea concolor grandis, 14 amabilis
Acer 10.88: 8.6 negundo pensylvanicum rubrum saccharinum, 10 macrophyllum, 15.6 nigrum saccharum
Aesculus 15: 15 flava
Ailanthus 15: 15 altissima
Alnus 11.49: 12 rubra
Amelanchier 8.6
Arbutus 15: 15 menziesii
Betula 10.98: 9.8 alleghaniensis lenta nigra, 12.6 neoalaskana papyrifera populifolia
Calocedrus 17: 17 decurrens
Carpinus 8.6: 8.6 caroliniana
Carya 16: 16 alba aquatica cordiformis glabra illinoinensis laciniosa myristiciformis ovata
Castanea 15: 15 dentata
Catalpa 15: 15 speciosa
Cedrus 16.2: 16.2 atlantica
Celtis 15: 15 occidentalis
Chamaecyparis 11.58: 11.6 lawsoniana nootkatensis thyoides
Chrysolepis 12: 12 chrysophylla
Cornus 15: 15 florida nuttallii
Corylus 9.8: 9.8 colurna
Cupressocyparis 14.3
Cyathea 15
Diospyros 15: 15 virginiana
Fagus 15.32: 6 grandifolia
Fraxinus 16: 16 americana latifolia nigra oxycarpa pennsylvanica profunda quadrangulata
Gleditsia 15: 15 triacanthos
Gymnocladus 15: 15 dioicus
Halesia 15
Ilex 15: 15 opaca
Juglans 15: 15 cinerea nigra
Juniperus 12: 12 deppeana osteosperma virginiana silicicola
Larix 14: 14 laricina occidentalis
Liquidambar 15: 15 styraciflua
Liriodendron 18: 18 tulipifera
Lithocarpus 19: 19 densiflorus
Maclura 15: 15 pomifera
Magnolia 15: 15 acuminata fraseri virginiana
Malus 15: 15 baccata
Nyssa 14: 14 aquatica sylvatica
Ostrya 15: 15 virginiana
Oxydendrum 15: 15 arboreum
Picea 12.56: 11.2 engelmannii, 12.5 sitchensis, 13 glauca mariana rubens
Pinus 16.13: 8.9 contorta, 12 attenuata, 12.6 monticola, 13.4 edulis flexilis glabra pungens radiata rigida serotina virginiana, 14 banksiana palustris, 15 clausa, 16 echinata resinosa strobus, 16.6 taeda, 18 elliottii, 22 muricata sabiniana, 25.6 jeffreyi lambertiana ponderosa
Platanus 8: 8 occidentalis
Populus 18.44: 14.4 grandidentata tremuloides, 16.3 trichocarpa, 22 balsamifera deltoides fremontii
Prosopis 15
Prunus 9.19: 9.2 serotina
Pseudotsuga 17.34: 17.3 menziesii
Quercus 19.12: 16 alba bicolor chrysolepis garryana laurifolia lobata macrocarpa nigra phellos virginiana, 18.5 velutina, 20 rubra, 22 coccinea falcata gambelii kelloggii lyrata pagoda palustris stellata, 23 michauxii prinus
Robinia 15: 15 pseudoacacia
Salix 16: 16 nigra
Sassafras 15: 15 albidum
Sequoia 18: 18 sempervirens
Sequoiadendron 18: 18 giganteum
Sorbus 15.2
Taxodium 20: 20 distichum
Taxus 4: 4 brevifolia
Thuja 12.47: 10.6 plicata, 14 occidentalis
Tilia 10.53: 10.5 americana
Tsuga 16.18: 15.8 heterophylla mertensiana, 17 canadensis
Ulmus 14: 14 alata americana crassifolia rubra thomasii
Umbellularia 15: 15 californica
`;
