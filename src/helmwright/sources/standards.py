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
