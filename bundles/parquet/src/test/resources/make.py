"""Writes the files that ParquetRowsTest reads: by pyarrow 25.0.1 (Apache Arrow's C++ writer).

The values are invented. Run in this folder: python make.py
"""

import datetime as dt
import decimal

import pyarrow as pa
import pyarrow.parquet as pq

AT = [dt.datetime(2024, 3, 1, 6, 30), dt.datetime(1969, 12, 31, 23, 59, 59, 500000), None]
TABLE = pa.table(
    {
        "machine": pa.array(["EX-11", "Bagger Süd", None]),
        "local": pa.array(AT, pa.timestamp("us")),
        "utc": pa.array(AT, pa.timestamp("ns", tz="UTC")),
        "day": pa.array([dt.date(2024, 2, 29), None, dt.date(1969, 7, 20)]),
        "clock": pa.array([dt.time(6, 30), None, dt.time(23, 59, 59)], pa.time32("ms")),
        "hours": pa.array([1200.5, None, float("nan")]),
        "single": pa.array([0.1, None, -2.5], pa.float32()),
        "count": pa.array([12, -7, None], pa.int32()),
        "big": pa.array([9007199254740993, 41, None], pa.int64()),
        "unsigned": pa.array([4294967295, 0, None], pa.uint32()),
        "price": pa.array([decimal.Decimal("12.34"), decimal.Decimal("-0.01"), None]),
        "ok": pa.array([True, False, None]),
        "place": pa.array(["rod", "rod", "head"]).dictionary_encode(),
    }
)

for codec in ["none", "snappy", "gzip", "zstd", "lz4", "brotli"]:
    pq.write_table(TABLE, f"{codec}.parquet", compression=codec)
pq.write_table(
    TABLE,
    "second-pages.parquet",
    data_page_version="2.0",
    use_dictionary=False,
    write_page_checksum=True,
    row_group_size=2,
    column_encoding={
        "hours": "BYTE_STREAM_SPLIT",
        "count": "DELTA_BINARY_PACKED",
        "machine": "DELTA_LENGTH_BYTE_ARRAY",
    },
)
pq.write_table(TABLE, "int96.parquet", use_deprecated_int96_timestamps=True)
pq.write_table(TABLE, "prefixes.parquet", use_dictionary=False, column_encoding={"machine": "DELTA_BYTE_ARRAY"})
pq.write_table(pa.table({"a": [[1, 2], [3]]}), "lists.parquet")
pq.write_table(pa.table({"a": [{"b": 1}]}), "nested.parquet")
