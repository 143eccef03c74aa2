"""The records of published checks of a helmet's fit."""

from helmwright.sources.record import Source, Standing

YEARGIN_2021 = Source(
    key="yeargin_2021",
    citation=(
        "Yeargin and others (2021), Improper fit in American youth football helmets across one "
        "competitive season, Annals of Biomedical Engineering; 147 players of 7 to 12 years"
    ),
    standing=Standing.PUBLISHED,
    locator="the abstract, read; its table of items was not at hand",
    note=(
        "A checklist of 13 items: 71.4 % of the helmets failed one or more before the season, "
        "79.6 % after it. The abstract does not list the items; youth_checklist_2020 does."
    ),
)

YOUTH_CHECKLIST_2020 = Source(
    key="youth_checklist_2020",
    citation=(
        "The 13 items of the youth football helmet checklist of Yeargin and others, in a news "
        "report of 2020 on their first study of 273 players of 7 to 12 years"
    ),
    standing=Standing.QUOTED,
    locator="the news report, read; the study itself was not at hand",
    note=(
        "Good condition; padding; snaps and screws; the standard's mark; snug on all sides; base "
        "of the skull covered; 1 to 2 fingers above the eyebrows; neck free; eyes free when "
        "pressed down; strap of equal tension; guard does not slip left and right, nor up and "
        "down; skin of the forehead moves with the helmet. Taken for those of yeargin_2021."
    ),
)

LININGER_2021 = Source(
    key="lininger_2021",
    citation=(
        "Lininger, Yeargin, Hirschhorn and Mensch (2021), Assessing the validity of a helmet fit "
        "checklist in a sample of youth football players, Research in Sports Medicine 31:357-367"
    ),
    standing=Standing.PUBLISHED,
    locator="doi:10.1080/15438627.2021.1988949; the abstract, read",
    note=(
        "Principal components of 13 items on 267 players: five, with 58 % of the variance, called "
        "stability, snugness, size, integrity and accessory. No single sum should be used. Which "
        "item belongs to which is not in the abstract: assumed here."
    ),
)
