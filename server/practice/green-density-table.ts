/**
 * Green wood and bark of 426 kinds of trees: the table of reference species of the US national forest inventory, with
 * the values of Miles and Smith 2009 (NRS-RN-38). Read in a public copy of the whole table; which rows are borrowed was
 * inferred from its citation codes. The means of all hardwoods and all softwoods are omitted.
 *
 * A line: genus; basis (s the species itself, o a related species, g the mean of the genus); specific gravity of the
 * wood (oven-dry mass over green volume) and its moisture in %; the same for the bark; bark in % of the volume of the
 * wood; then the epithets with these values, `spp.` for the genus itself.
 */

export const greenDensityRows = `
Abies s .4 70 .44 63.9 14: amabilis
Abies s .33 118.5 .4 100.3 12: balsamea
Abies s .37 103.6 .56 63.1 12: concolor
Abies s .35 106.1 .57 63.1 12: grandis
Abies s .31 44.7 .5 63.5 10.8: lasiocarpa
Abies s .36 113.7 .44 20.2 10.8: magnifica
Abies s .37 29.9 .49 63.5 10.8: procera
Abies g .36 84 .49 62.4 11.76: bracteata, fraseri, lasiocarpa var. arizonica, shastensis, spp.
Acer s .44 71.2 .48 113.7 10: macrophyllum
Acer s .42 90.8 .5 92.3 8.6: negundo
Acer s .52 69.5 .54 89.9 15.6: nigrum
Acer s .44 71.2 .5 89.1 8.6: pensylvanicum
Acer s .49 63.5 .6 79 8.6: rubrum
Acer s .44 67.5 .57 79.9 8.6: saccharinum
Acer s .56 57.4 .54 89.9 15.6: saccharum
Acer o .47 70.2 .53 90.5 10.81: circinatum, tataricum
Acer g .47 70.3 .53 90.6 10.88: barbatum, glabrum, grandidentatum, leucoderme, platanoides, platanoides × truncatum, spicatum, spp.
Acer g .47 70.2 .53 90.5 10.81: buergerianum, campestre, ginnala, griseum, pseudoplatanus, truncatum, ×freemanii
Acer g .47 70 .53 91 10.9: mono
Acer g .48 70 .53 91 11.16: palmatum
Aesculus s .33 142.8 .5 89.1 15: flava
Aesculus o .33 143 .5 89 15: californica, glabra, glabra var. arguta, hippocastanum, pavia, sylvatica
Aesculus g .33 143 .5 89 15: spp., ×carnea
Ailanthus s .46 74.2 .45 78.1 15: altissima
Alnus s .37 99.2 .56 74.6 12: rubra
Alnus o .37 99 .56 75 11.5: serrulata
Alnus g .37 99 .56 75 11.49: glutinosa, oblongifolia, rhombifolia, spp.
Alnus g .37 99 .56 75 11.5: incana
Amelanchier o .66 48 .5 60 8.6: laevis
Amelanchier g .66 48 .5 60 8.62: arborea, sanguinea
Amelanchier g .66 48.1 .5 60.3 8.6: spp.
Arbutus s .58 65.8 .6 60.2 15: menziesii
Arbutus o .58 66 .6 60 15: arizonica, unedo, xalapensis
Arbutus g .58 66 .6 60 15: spp.
Betula s .55 71.9 .62 60.3 9.8: alleghaniensis
Betula s .6 73 .62 52.5 9.8: lenta
Betula s .48 73.6 .56 51.7 12.6: neoalaskana, papyrifera
Betula s .49 86.4 .55 45.7 9.8: nigra
Betula s .45 63.8 .55 63.2 12.6: populifolia
Betula o .51 73.8 .58 54.7 10.94: pendula
Betula g .51 73.8 .58 54.8 10.98: occidentalis, spp., uber, ×utahensis
Betula g .51 74 .58 55 11: utilis
Calocedrus s .35 106.1 .25 28.2 17: decurrens
Carpinus s .58 46.4 .55 89.4 8.6: caroliniana
Carya s .64 62.8 .6 60.2 16: alba
Carya s .61 83.9 .6 60.2 16: aquatica
Carya s .6 70.9 .6 60.2 16: cordiformis
Carya s .66 65.1 .6 60.2 16: glabra
Carya s .6 65.6 .6 60.2 16: illinoinensis
Carya s .62 65.4 .6 60.2 16: laciniosa
Carya s .56 77.4 .6 60.2 16: myristiciformis
Carya s .64 60.2 .72 33.5 16: ovata
Carya g .62 68.9 .62 56.7 16: carolinae-septentrionalis, floridana, ovalis, pallida, spp., texana
Castanea s .4 120.3 .5 89.1 15: dentata
Castanea o .4 120 .5 89 15: mollissima, pumila, pumila var. ozarkensis
Castanea g .4 120 .5 89 15: spp.
Catalpa s .38 72.9 .5 89.1 15: speciosa
Catalpa o .38 73 .5 89 15: bignonioides
Catalpa g .38 73 .5 89 15: spp.
Cedrus s .41 78 .46 98 16.2: atlantica
Celtis s .49 63.5 .49 89.7 15: occidentalis
Celtis o .49 64 .49 90 15: laevigata, laevigata var. reticulata, sinensis
Celtis g .49 64 .49 90 15: spp.
Chamaecyparis s .39 74 .4 64.3 11.6: lawsoniana
Chamaecyparis s .42 71.7 .4 112.3 11.6: nootkatensis
Chamaecyparis s .31 86.1 .4 100.3 11.6: thyoides
Chamaecyparis g .37 77.3 .4 92.3 11.58: obtusa, pisifera
Chamaecyparis g .37 77.3 .4 92 11.58: spp.
Chrysolepis s .42 132.8 .42 90.8 12: chrysophylla var. chrysophylla
Cornus s .64 32.7 .58 90.7 15: florida
Cornus s .58 46.4 .58 90.7 15: nuttallii
Cornus o .61 39.6 .58 90.7 15: kousa
Cornus g .61 40 .58 91 15: drummondii
Cornus g .61 39.5 .58 91 15: spp.
Corylus s .55 72 .62 60 9.8: colurna
Cupressocyparis g .41 74 .42 71 14.3: leylandii
Cyathea o .58 66 .6 60 15: cooperi
Diospyros s .64 57.8 .5 89.1 15: virginiana
Diospyros o .64 58 .5 89 15: kaki, samoensis, texana
Diospyros g .64 58 .5 89 15: spp.
Fagus s .56 54.5 .67 89 6: grandifolia
Fagus g .52 75.1 .53 80.6 15.32: sylvatica
Fraxinus s .55 45.7 .5 89.1 16: americana
Fraxinus s .5 60.3 .5 89.1 16: latifolia
Fraxinus s .45 85.2 .43 90.1 16: nigra
Fraxinus s .55 46 .5 89 16: oxycarpa
Fraxinus s .53 57.2 .48 70.3 16: pennsylvanica
Fraxinus s .48 66.9 .45 88.8 16: profunda
Fraxinus s .53 51.2 .39 89 16: quadrangulata
Fraxinus g .51 61 .46 86 16: angustifolia, berlandieriana, caroliniana, spp., texensis, velutina
Fraxinus g .51 61.1 .46 86 16: excelsior
Gleditsia s .6 60.2 .5 89.1 15: triacanthos
Gleditsia o .6 60 .5 89 15: aquatica
Gleditsia g .6 60 .5 89 15: spp.
Gymnocladus s .53 51.2 .5 60.3 15: dioicus
Halesia g .42 68 .5 89 15: carolina, diptera, parviflora
Halesia g .42 67.9 .5 89.1 15: spp.
Ilex s .5 82.7 .5 89.1 15: opaca
Juglans s .36 104.8 .4 88.3 15: cinerea
Juglans s .51 79.1 .33 89.4 15: nigra
Juglans g .44 92 .37 88.5 15: californica, hindsii, major, microcarpa, spp.
Juglans g .44 92 .37 89 15: regia
Juniperus s .48 33.5 .4 60.2 12: deppeana
Juniperus s .68 35 .4 60.2 12: osteosperma
Juniperus s .44 34.8 .4 60.2 12: virginiana
Juniperus s .42 41.2 .4 60.2 12: virginiana var. silicicola
Juniperus g .45 36.2 .4 60 12: ashei, californica, chinensis, coahuilensis, flaccida, monosperma, occidentalis, pinchotii, scopulorum, spp.
Juniperus g .51 36.1 .4 60.2 12: bermudiana
Larix s .49 53.7 .3 97.6 14: laricina
Larix s .48 60.2 .33 65.1 14: occidentalis
Larix g .49 57 .32 81.4 14: decidua
Larix g .49 57 .32 81.5 14: kaempferi, lyallii, sibirica, spp.
Liquidambar s .46 74.2 .42 90.8 15: styraciflua
Liriodendron s .4 95 .38 123.5 18: tulipifera
Lithocarpus s .58 79.6 .62 60.3 19: densiflorus
Maclura s .76 30.7 .6 60.2 15: pomifera
Magnolia s .44 78.5 .44 89.4 15: acuminata
Magnolia s .4 96.3 .44 89.4 15: fraseri
Magnolia s .42 87 .44 104 15: virginiana
Magnolia g .46 106 .44 89 15: grandiflora
Magnolia g .43 91.8 .44 92.8 15: macrophylla, pyramidata, spp., stellata, tripetala, ×soulangiana
Malus s .61 78 .5 69.9 15: baccata
Malus g .61 78 .5 70 15: angustifolia, coronaria, floribunda, fusca, ioensis, pumila
Malus g .61 78 .5 69.9 15: spp.
Nyssa s .46 95.1 .58 82.4 14: aquatica
Nyssa s .46 101 .44 71.2 14: sylvatica
Nyssa g .46 98 .51 76.5 14: biflora, ogeche, spp.
Ostrya s .63 52.6 .5 89.1 15: virginiana
Oxydendrum s .5 69.9 .6 60.2 15: arboreum
Picea s .33 89.4 .51 79.1 11.2: engelmannii
Picea s .37 51.6 .39 76.7 13: glauca
Picea s .38 47.6 .42 90.8 13: mariana
Picea s .37 47.3 .32 75.3 13: rubens
Picea s .33 60.2 .55 80.7 12.5: sitchensis
Picea g .36 59.2 .44 80.6 12.56: abies, breweriana, pungens, spp.
Picea g .36 59.2 .44 80.5 12.55: omorika
Pinus s .39 105.5 .38 68.7 12: attenuata
Pinus s .4 100.3 .41 91.5 14: banksiana
Pinus s .46 32.4 .45 88.8 15: clausa
Pinus s .38 64.5 .38 64.5 8.9: contorta
Pinus s .47 77.3 .35 60.3 16: echinata
Pinus s .5 28.2 .4 60.2 13.4: edulis
Pinus s .54 72.1 .35 87.7 18: elliottii
Pinus s .37 94.9 .5 12.2 13.4: flexilis
Pinus s .41 75.9 .45 24.6 13.4: glabra
Pinus s .37 103.6 .36 33.6 25.6: jeffreyi
Pinus s .34 130 .35 87.7 25.6: lambertiana
Pinus s .36 55.8 .47 84.1 12.6: monticola
Pinus s .45 60.3 .45 42.4 22: muricata
Pinus s .54 63.2 .45 88.8 14: palustris
Pinus s .38 89.8 .35 32.8 25.6: ponderosa
Pinus s .49 76.6 .45 60.3 13.4: pungens
Pinus s .4 100 .4 60.2 13.4: radiata
Pinus s .41 64.2 .27 89.9 16: resinosa
Pinus s .47 70.5 .34 88.5 13.4: rigida
Pinus s .4 80.3 .4 60.2 22: sabiniana
Pinus s .51 60.3 .33 94.2 13.4: serotina
Pinus s .34 65 .47 70.5 16: strobus
Pinus s .47 80.7 .33 99.1 16.6: taeda
Pinus s .45 78.1 .54 89.9 13.4: virginiana
Pinus o .43 76.2 .4 68.4 16.13: densiflora
Pinus g .43 76.1 .4 68.4 16.13: albicaulis, aristata, arizonica, balfouriana, canariensis, cembroides, coulteri, discolor, elliottii var. elliottii, engelmannii, halepensis, leiophylla, longaeva, monophylla, monophylla var. fallax, nigra, quadrifolia, remota, spp., strobiformis, sylvestris, thunbergii, torreyana, washoensis
Platanus s .46 81.2 .6 84.3 8: occidentalis
Platanus o .46 81 .6 84 8: racemosa, wrightii
Platanus g .46 81 .6 84 8: hybrida, spp.
Populus s .31 106.8 .5 85.9 22: balsamifera
Populus s .31 137.8 .4 100.3 16.3: balsamifera subsp. trichocarpa
Populus s .37 116.6 .38 56 22: deltoides
Populus s .41 56.3 .41 91.5 22: fremontii
Populus s .36 91.4 .59 90.1 14.4: grandidentata
Populus s .35 128.9 .5 101.9 14.4: tremuloides
Populus g .35 106.3 .46 87.7 18.44: alba, angustifolia, deltoides subsp. monilifera, heterophylla, nigra, spp.
Prosopis g .78 21 .65 41 15: glandulosa, pubescens, velutina
Prosopis g .78 21.2 .65 40.5 15: spp.
Prunus s .47 53.4 .63 90.8 9.2: serotina
Prunus g .47 53 .63 91 9.19: alleghaniensis, americana, angustifolia, avium, caroliniana, cerasus, domestica, emarginata, mahaleb, mexicana, nigra, pensylvanica, persica, salicina, spp., virginiana
Prunus g .47 53 .63 91 9.2: cerasifera, sargentii, serrulata, ×subhirtella, ×yedoensis
Pseudotsuga s .45 35.3 .44 89.4 17.3: menziesii
Pseudotsuga g .45 35 .44 89 17.34: macrocarpa, spp.
Quercus s .6 68.3 .56 88.9 16: alba
Quercus s .64 57.8 .55 89.4 16: bicolor
Quercus s .7 74 .64 90.3 16: chrysolepis
Quercus s .6 70.9 .71 49 22: coccinea
Quercus s .52 97.2 .68 48.5 22: falcata
Quercus s .61 65.5 .63 65.6 22: gambelii
Quercus s .64 57.8 .63 65.3 16: garryana
Quercus s .51 101.1 .45 88.8 22: kelloggii
Quercus s .56 83.1 .5 121.2 16: laurifolia
Quercus s .55 83.6 .55 89.4 16: lobata
Quercus s .57 77.1 .51 88.5 22: lyrata
Quercus s .58 74.1 .54 89.9 16: macrocarpa
Quercus s .6 68.3 .51 88.5 23: michauxii
Quercus s .56 83.1 .62 73.2 16: nigra
Quercus s .61 68.1 .63 90.8 22: pagoda
Quercus s .58 76.8 .6 89.6 22: palustris
Quercus s .56 83.1 .59 90.1 16: phellos
Quercus s .57 77.1 .54 60.3 23: prinus
Quercus s .56 83.1 .68 90.9 20: rubra
Quercus s .6 70.9 .51 88.5 22: stellata
Quercus s .56 83.1 .6 89.6 18.5: velutina
Quercus s .8 52.2 .51 88.5 16: virginiana
Quercus o .6 75.3 .58 83 19.12: fusiformis, sinuata, sinuata var. breviloba
Quercus o .59 83 .5 121 16: hemisphaerica
Quercus o .59 75.3 .58 83 19.12: robur
Quercus g .59 75 .58 83 19.1: acutissima
Quercus g .59 75.3 .58 83 19.12: agrifolia, arizonica, buckleyi, douglasii, ellipsoidalis, emoryi, engelmannii, graciliformis, gravesii, grisea, havardii, hypoleucoides, ilicifolia, imbricaria, incana, laceyi, laevis, margarettiae, marilandica, minima, muehlenbergii, oblongifolia, oglethorpensis, polymorpha, prinoides, rugosa, shumardii, similis, sinuata var. sinuata, spp., texana, wislizeni
Robinia s .66 40.8 .29 87.9 15: pseudoacacia
Robinia o .66 41 .29 88 15: neomexicana
Salix s .36 127 .5 98.7 16: nigra
Salix g .36 127 .5 99 16: alba, amygdaloides, bebbiana, bonplandiana, caroliniana, discolor, fragilis, pyrifolia, scouleriana, spp., ×sepulcralis
Sassafras s .42 67.9 .5 89.1 15: albidum
Sequoia s .36 122.6 .43 15.5 18: sempervirens
Sequoiadendron s .34 178.1 .34 17.8 18: giganteum
Sorbus g .52 75 .53 80 15.2: aucuparia
Taxodium s .42 94.6 .5 98.7 20: distichum
Taxodium g .42 95 .5 99 20: ascendens, mucronatum, spp.
Taxus s .6 46.9 .59 98.3 4: brevifolia
Taxus g .6 47 .59 98 4: baccata, cuspidata, floridana, spp.
Thuja s .29 98.9 .42 90.8 14: occidentalis
Thuja s .31 39.6 .37 55.9 10.6: plicata
Thuja g .3 69.5 .4 73.5 12.47: spp.
Tilia s .32 105.3 .48 90.3 10.5: americana
Tilia o .32 105 .48 90 10.5: cordata
Tilia g .32 105 .48 90 10.53: americana var. caroliniana, americana var. heterophylla, spp., tomentosa
Tsuga s .38 110.9 .46 98.6 17: canadensis
Tsuga s .42 56.5 .5 101.9 15.8: heterophylla
Tsuga s .42 67.9 .41 91.5 15.8: mertensiana
Tsuga g .41 78.3 .46 97.7 16.18: caroliniana, spp.
Ulmus s .6 41.6 .45 74.5 14: alata
Ulmus s .46 94 .44 78.5 14: americana
Ulmus s .59 65.7 .45 74.5 14: crassifolia
Ulmus s .48 77 .29 170.8 14: rubra
Ulmus s .57 51 .5 57.1 14: thomasii
Ulmus g .54 65.8 .43 91.1 14: procera
Ulmus g .54 66 .43 91.1 14: pumila, serotina, spp.
Umbellularia s .51 66.5 .55 42.8 15: californica
`;
