"""Source records of published standards that the record, its codes and its pages keep."""

from helmwright.sources.record import Source, Standing

ISO_18004 = Source(
    key="iso_18004",
    citation=(
        "ISO/IEC 18004:2015, Information technology: automatic identification and data capture"
        " techniques: QR Code bar code symbology specification"
    ),
    standing=Standing.PUBLISHED,
    locator="quiet zone of 4 modules; error correction levels L, M, Q, H",
    note="Labels are decoded from the printed PDF by a reader that is not their maker's.",
)

WCAG_22 = Source(
    key="wcag_22",
    citation="W3C (2023), Web Content Accessibility Guidelines (WCAG) 2.2, W3C Recommendation",
    standing=Standing.PUBLISHED,
    locator=(
        "definitions of relative luminance and contrast ratio; success criteria 1.4.3 (text, 4.5)"
        " and 1.4.11 (parts of controls, 3)"
    ),
)
