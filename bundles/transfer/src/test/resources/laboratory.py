"""Writes the file that ParquetTest reads: by pyarrow 25.0.1 (Apache Arrow's C++ writer).

The values are invented. Run in this folder: python laboratory.py
"""

import datetime as dt

import pyarrow as pa
import pyarrow.parquet as pq

at = [dt.datetime(2024, month, 1, 6, 30) for month in (3, 4, 5, 6)]
pq.write_table(
    pa.table(
        {
            "Equipment": ["EX-1"] * 4,
            "Date sampled": pa.array(at, pa.timestamp("us", tz="UTC")),
            "Hours": [1200.5, 1450.25, None, 1900.0],
            "Lab no": pa.array([9007199254740993, 2, 3, 4], pa.int64()),
            "ISO 4406": ["19/17/14", None, "20/18/15", "18/16/13"],
            "Fe (ppm)": pa.array([12, None, 15, -3], pa.int32()),
        }
    ),
    "laboratory.parquet",
    compression="zstd",
)
