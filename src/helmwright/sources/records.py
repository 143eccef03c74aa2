"""The source records, one for each place that a number of this project came from."""

from helmwright.sources.record import Source, Standing

ASSUMED = Source(
    key="assumed",
    citation="Assumed by this project; no published value was found.",
    standing=Standing.ASSUMED,
    note="Shown as assumed wherever a person reads a result that leans on it.",
)

COMMON_PRACTICE = Source(
    key="common_practice",
    citation="Common practice of equipment rooms; no source.",
    standing=Standing.COMMON_PRACTICE,
)

INVENTED = Source(
    key="invented",
    citation="Invented for the demonstration; describes nothing on sale and nobody alive.",
    standing=Standing.INVENTED,
)

NIST_VINYL_NITRILE = Source(
    key="nist_vinyl_nitrile",
    citation=(
        "Landauer and others (2023), data set of quasi-static and dynamic compression of foams "
        "(NIST mds2-2606), Scientific Data 10:356"
    ),
    standing=Standing.PUBLISHED,
    locator="doi:10.1038/s41597-023-02092-4",
    note=(
        "Closed-cell vinyl-nitrile of 90 to 120 kg/m3, slow compression to strain 0.49. Scatter "
        "from piece to piece is not given there: assumed."
    ),
)

CUSHION_PU = Source(
    key="cushion_pu",
    citation=(
        "Assumed by this project: a law through the general figures of flexible cushion "
        "polyurethane foam of 25 to 40 kg/m3, which are from memory."
    ),
    standing=Standing.ASSUMED,
    note="Plateau 1 to 5 kPa, modulus 20 to 100 kPa, crushed from strain 0.6 to 0.8.",
)

US_ARMY_2012 = Source(
    key="us_army_2012",
    citation=(
        "Gordon and others (2014), 2012 Anthropometric Survey of U.S. Army Personnel: Methods and "
        "Summary Statistics"
    ),
    standing=Standing.PUBLISHED,
    locator="NATICK/TR-15/007 (number from memory); public individual records of 2017",
    note=(
        "4082 men and 1986 women, 17 to 58 years, unweighted working records; summaries computed "
        "from the records. Women's braids and cornrows were measured over. Soldiers, not players."
    ),
)

NIOSH_2003 = Source(
    key="niosh_2003",
    citation=(
        "Zhuang and Bradtmiller (2005), Head-and-face anthropometric survey of U.S. respirator "
        "users, Journal of Occupational and Environmental Hygiene 2(11):567-576"
    ),
    standing=Standing.PUBLISHED,
    locator="public individual table of the 2003 survey",
    note=(
        "2543 men and 1454 women, civilian workers, unweighted; summaries computed from the "
        "records. The one survey here with bigonial breadth; it has no tragion to top of head."
    ),
)

SNYDER_1977 = Source(
    key="snyder_1977",
    citation=(
        "Snyder and others (1977), Anthropometry of Infants, Children and Youths to Age 18 for "
        "Product Safety Design"
    ),
    standing=Standing.PUBLISHED,
    locator="UM-HSRI-77-17; recomputed from a copy of the public individual records",
    note=(
        "Youths of the United States in the 1970s; ages in completed years. At one exact age "
        "circumferences run below uk_1990: boys by 15 mm at 8 years and 1 at 18, girls by 9 to 14. "
        "Head length was taken of other children than "
        "tragion to top and bizygomatic breadth; no bigonial breadth, no chin arc."
    ),
)

UK_1990 = Source(
    key="uk_1990",
    citation=(
        "Cole, Freeman and Preece (1998), British 1990 growth reference centiles for weight, "
        "height, body mass index and head circumference, Statistics in Medicine 17:407-429"
    ),
    standing=Standing.PUBLISHED,
    locator="head circumference to 18 years (boys) and 17 (girls); volume and pages from memory",
    note="Medians and standard deviations at exact ages; normal at these ages.",
)

ISO_20685 = Source(
    key="iso_20685",
    citation="ISO 20685, 3-D scanning methodologies for internationally compatible databases",
    standing=Standing.QUOTED,
    locator="quoted in Gupta and Zakaria 2014, page 41",
    note=(
        "Largest mean error allowed against an expert's hand: 1 mm for head measures without "
        "hair, 2 mm with hair."
    ),
)

GUPTA_ZAKARIA_2014 = Source(
    key="gupta_zakaria_2014",
    citation="Gupta and Zakaria, editors (2014), Anthropometry, Apparel Sizing and Design",
    standing=Standing.PUBLISHED,
    locator="pages 34 and 41",
    note="Technical error of measurement; the limits of ISO 20685.",
)

ULIJASZEK_KERR_1999 = Source(
    key="ulijaszek_kerr_1999",
    citation=(
        "Ulijaszek and Kerr (1999), Anthropometric measurement error and the assessment of "
        "nutritional status, British Journal of Nutrition 82:165-177"
    ),
    standing=Standing.QUOTED,
    locator="doi:10.1017/S0007114599001348; its worked example, as anthrocheckr (R) has it",
    note="Stature of ten people by four observers; the technical error comes to 3.06 mm.",
)

THAKKAR_2017 = Source(
    key="thakkar_2017",
    citation="Thakkar and others (2017), head circumference of 301 children with two kinds of tape",
    standing=Standing.PUBLISHED,
    note=(
        "Readings 5 mm or more apart: non-stretch tape 9.9 % within and 15.9 % between measurers, "
        "stretch tape 26 %. Under normal errors that is 2.1, 2.5 and 3.1 mm a reading."
    ),
)

FOOT_HEAD = Source(
    key="foot_head",
    citation=(
        "Bryce and Barker's head measures of 30 high-school players, 30 college players and 30 "
        "non-players, in Rencher (1995), Methods of Multivariate Analysis"
    ),
    standing=Standing.PUBLISHED,
    locator="table 8.3",
    note="Group means, standard deviations and correlations only; in cm.",
)

FRETS_1921 = Source(
    key="frets_1921",
    citation="Frets (1921), head length and breadth of 25 pairs of adult brothers, Genetica 3",
    standing=Standing.PUBLISHED,
    note="Means, standard deviations and correlations only.",
)

US_HAT_SIZE = Source(
    key="us_hat_size",
    citation="United States hat sizes: circumference in inches over pi, in steps of an eighth",
    standing=Standing.COMMON_PRACTICE,
    note=(
        "Several published charts agree within their rounding. British and European sizes differ."
    ),
)

FAA_DESIGN_STANDARD = Source(
    key="faa_design_standard",
    citation="Federal Aviation Administration, Human Factors Design Standard",
    standing=Standing.QUOTED,
    locator="exhibit 14.3.2.1, seen quoted",
    note="Sellion to top of head: median 112 mm of men, 105 mm of women.",
)

WRONG_BAND_SIMULATION = Source(
    key="wrong_band_simulation",
    citation=(
        "Chance of the wrong circumference band, resampled from the men of the US Army 2012 "
        "records with normal tape errors added"
    ),
    standing=Standing.COMPUTED,
    locator="the public individual records of us_army_2012",
    note="Bands of 10 to 30 mm, reading errors of 2 to 7 mm.",
)

SCIPY_STATS = Source(
    key="scipy_stats",
    citation="SciPy (scipy.stats, scipy.integrate), a general statistics and integration library",
    standing=Standing.PUBLISHED,
    note="Normal densities, rectangle probabilities and integrals, by code that is not ours.",
)

STARK_2023 = Source(
    key="stark_2023",
    citation="Stark et al. 2023, friction of live human heads against helmet liners, Annals of "
    "Biomedical Engineering.",
    standing=Standing.PUBLISHED,
    locator="doi:10.1007/s10439-023-03332-9",
    note="74 heads: static 0.32 (0.30 to 0.34), no effect of sex or hair.",
)

TROTTA_2018 = Source(
    key="trotta_2018",
    citation="Trotta et al. 2018, friction of scalp, skull and liner, Journal of Biomechanics.",
    standing=Standing.PUBLISHED,
    locator="doi:10.1016/j.jbiomech.2018.05.003",
    note="Scalp against liner 0.29 (SD 0.07).",
)

EN_397 = Source(
    key="en_397",
    citation="EN 397, Industrial safety helmets: clearances are taken with the helmet seated on "
    "the headform by a vertical force of 50 N.",
    standing=Standing.PUBLISHED,
    locator="EN 397, determination of clearances and wearing height",
)

ARMY_HELMET_PADS_2025 = Source(
    key="army_helmet_pads_2025",
    citation="Pad forces of a seven-pad army helmet on 89 wearers, Annals of Biomedical "
    "Engineering 2025.",
    standing=Standing.PUBLISHED,
    locator="doi:10.1007/s10439-025-03677-3",
    note="Most pads 0 to 5 N, hot spots to 30 N, largest at the front.",
)

DLMF_ELLIPTIC_INTEGRALS = Source(
    key="dlmf_elliptic_integrals",
    citation="NIST Digital Library of Mathematical Functions, chapter 19, Elliptic Integrals",
    standing=Standing.PUBLISHED,
    locator="19.9.9 and 19.30.5",
    note="The perimeter of an ellipse is four times its longer half axis times E(k).",
)

RAMANUJAN_1914 = Source(
    key="ramanujan_1914",
    citation=(
        "Ramanujan (1914), Modular equations and approximations to pi, Quarterly Journal of "
        "Mathematics 45:350-372"
    ),
    standing=Standing.FROM_MEMORY,
    note="The second of its two formulas for the perimeter of an ellipse.",
)

FSAVERAGE_HEAD = Source(
    key="fsaverage_head",
    citation=(
        "Averaged adult head surface of 2033 vertices (fsaverage), as carried by MNE-Python 1.13.2"
    ),
    standing=Standing.PUBLISHED,
    locator="sections of it, computed as perimeters of convex hulls",
    note="Larger than life: geometry with known answers, no evidence about a population.",
)

SCIPY_OPTIMIZE = Source(
    key="scipy_optimize",
    citation="SciPy (scipy.optimize), a general library of minimization and root finding",
    standing=Standing.PUBLISHED,
    note="Equilibria and roots by code that is not ours.",
)

COULOMB_FRICTION = Source(
    key="coulomb_friction",
    citation="Coulomb's law of dry friction and the balance of forces; any textbook of statics",
    standing=Standing.PUBLISHED,
    note="Cases that can be solved by hand.",
)

STANDARD_ATMOSPHERE_1976 = Source(
    key="standard_atmosphere_1976",
    citation="U.S. Standard Atmosphere, 1976 (NOAA, NASA, U.S. Air Force), NOAA-S/T 76-1562",
    standing=Standing.PUBLISHED,
    locator="lowest layer, 0 to 11 km; the same as ISO 2533:1975",
    note=(
        "Constants and the pressure of 22.632 kPa at 11 km as software that implements it states "
        "them; the document itself was not at hand."
    ),
)

IDEAL_GAS = Source(
    key="ideal_gas",
    citation="The ideal gas law (Boyle, Gay-Lussac); any textbook of physics",
    standing=Standing.PUBLISHED,
    note="Cases that can be worked by hand. Air at these pressures follows it to a part in 1000.",
)

NIOSH_2003_FACE = Source(
    key="niosh_2003_face",
    citation=(
        "Zhuang and Bradtmiller (2005), as niosh_2003: men's nose from bridge to base 52.0 (SD "
        "4.1) mm, women's 48.2; bridge to chin 122.7 and 113.4"
    ),
    standing=Standing.FROM_MEMORY,
    note="Not among the summaries computed from the records.",
)

BROW_ABOVE_LIMBUS = Source(
    key="brow_above_limbus",
    citation=(
        "Measurement of eyebrow position from inferior corneal limbus to brow: a new technique; "
        "213 persons of 5 to 80 years"
    ),
    standing=Standing.QUOTED,
    locator="the abstract, read; authors and journal not at hand",
    note="Lower edge of the cornea to the first row of brow hairs: men 19.4 mm, women 19.7.",
)

EYE_PROTRUSION_1986 = Source(
    key="eye_protrusion_1986",
    citation=(
        "Exophthalmometry and age: a cross-sectional study with reference also to interpupillary "
        "distance and orbital width (1986), 454 persons of 5 to 80 years"
    ),
    standing=Standing.QUOTED,
    locator="the abstract, read; authors from memory: Fledelius and Stubgaard",
    note="Cornea ahead of the outer rim of the orbit: men 16.5 mm, women 16.0; pupils 66 and 63.",
)

BEIER_1979 = Source(
    key="beier_1979",
    citation=(
        "Beier and others (1979), Determination of physical data of the head: center of gravity "
        "and moments of inertia of human heads; 19 men and 2 women"
    ),
    standing=Standing.QUOTED,
    locator="Office of Naval Research, contract N00014-75-C-0486; summary read, means quoted",
    note=(
        "Heads of 3.66 to 5.76 kg; center of gravity 22 to 43 mm above the Frankfurt plane, on "
        "average 31 above it and 8 ahead of the ear canals. Their mean mass is from memory."
    ),
)

CHANCEY_2007 = Source(
    key="chancey_2007",
    citation=(
        "Chancey and others (2007), A kinematic and anthropometric study of the upper cervical "
        "spine and the occipital condyles, Journal of Biomechanics 40:1953-1959"
    ),
    standing=Standing.PUBLISHED,
    locator="doi:10.1016/j.jbiomech.2006.09.007; the abstract",
    note="Condyles 18.4 mm behind and 31.0 mm below the ear canals.",
)

MCGUINE_1997 = Source(
    key="mcguine_1997",
    citation=(
        "McGuine and Nass (1997), football helmet fitting errors in Wisconsin high school "
        "players, ASTM STP 1305; 1671 helmets of 34 schools"
    ),
    standing=Standing.PUBLISHED,
    locator="the abstract, read: STP11775S; number of the volume from memory",
    note=(
        "Seven criteria: 1 inch above the eyebrows; 2 inches or more from nose to guard; strap "
        "centered and tight; jaw pads snug; ear openings aligned; back of the head covered; little "
        "movement front to back under pressure. How far from 1 inch is an error is not said."
    ),
)

CARD_1980 = Source(
    key="card_1980",
    citation=(
        "Card, Moran and Newell (1980), The keystroke-level model for user performance time with "
        "interactive systems, Communications of the ACM 23(7):396-410"
    ),
    standing=Standing.QUOTED,
    locator="doi:10.1145/358886.358895; times and the worked example as teaching pages quote them",
    note="Keys, pointing, homing and mental preparation of an expert who makes no mistake.",
)

PLANE_GEOMETRY = Source(
    key="plane_geometry",
    citation="Angles, distances and levers in a plane; any textbook of geometry and statics",
    standing=Standing.PUBLISHED,
    note="Cases worked by hand or found by another way of counting.",
)

SMITH_1956 = Source(
    key="smith_1956",
    citation=(
        "Smith (1956), Various optimizers for single-stage production, Naval Research Logistics "
        "Quarterly 3:59-66"
    ),
    standing=Standing.FROM_MEMORY,
    note=(
        "Of jobs with times c and weights p, in the order of c / p the weighted sum of their ends "
        "is least. With p the chance that a try is the one that ends a search, that is its mean."
    ),
)

BAYES_1763 = Source(
    key="bayes_1763",
    citation=(
        "Bayes and Price (1763), An essay towards solving a problem in the doctrine of chances, "
        "Philosophical Transactions of the Royal Society 53:370-418"
    ),
    standing=Standing.PUBLISHED,
    locator="doi:10.1098/rstl.1763.0053",
    note="Cases with few unknowns, enumerated on a grid by the tests themselves.",
)

EMCEE_2013 = Source(
    key="emcee_2013",
    citation=(
        "Foreman-Mackey, Hogg, Lang and Goodman (2013), emcee: the MCMC hammer, Publications of "
        "the Astronomical Society of the Pacific 125:306-312, and its library"
    ),
    standing=Standing.PUBLISHED,
    locator="doi:10.1086/670067",
    note="A general sampler of another kind, run on the same prior and likelihood.",
)

TALTS_2018 = Source(
    key="talts_2018",
    citation=(
        "Talts, Betancourt, Simpson, Vehtari and Gelman (2018), Validating Bayesian inference "
        "algorithms with simulation-based calibration"
    ),
    standing=Standing.PUBLISHED,
    locator="arXiv:1804.06788",
    note="A truth drawn from the prior has a uniform rank among draws of its posterior.",
)

COHEN_1960 = Source(
    key="cohen_1960",
    citation=(
        "Cohen (1960), A coefficient of agreement for nominal scales, Educational and "
        "Psychological Measurement 20(1):37-46"
    ),
    standing=Standing.FROM_MEMORY,
    locator="doi:10.1177/001316446002000104",
    note="Agreement beyond chance over the most that chance leaves.",
)

PATTON_2017 = Source(
    key="patton_2017",
    citation=(
        "Patton, Blackmore, Hagel and Emery (2017), abstract on helmet fit in youth ice hockey, "
        "British Journal of Sports Medicine 51(4):372"
    ),
    standing=Standing.PUBLISHED,
    locator="read as an abstract",
    note=(
        "Two assessors, 60 players of 11 to 18: agreed on more than 80 percent of players for all "
        "criteria but one, which had 67; half of the criteria had a kappa below 0.2, a fifth one "
        "above 0.8. Another sport's helmets; criteria met or not."
    ),
)

HEAD_FORM_BY_EYE_2014 = Source(
    key="head_form_by_eye_2014",
    citation="Study of head forms judged by eye (2014), BMC Oral Health 14:50",
    standing=Standing.QUOTED,
    note="Cohen's kappa of 0.39 between judgment by eye and measurement.",
)

RFC_9562 = Source(
    key="rfc_9562",
    citation="RFC 9562 (2024), Universally Unique IDentifiers (UUIDs), IETF",
    standing=Standing.PUBLISHED,
    locator="section 5.7 and the example of version 7 in appendix A.6",
    note="The example was copied, and found the same in other projects' tests that name the RFC.",
)

FIPS_180_4 = Source(
    key="fips_180_4",
    citation="FIPS PUB 180-4 (2015), Secure Hash Standard, NIST; its example values of SHA-256",
    standing=Standing.PUBLISHED,
    locator="messages of no bits, 24 bits, 448 bits and a million letters a",
    note="Values from memory, found the same in other projects' tests that name the standard.",
)
