package siltwright.parquet;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.concurrent.TimeUnit;
import org.apache.parquet.column.ColumnReader;
import org.apache.parquet.format.ConvertedType;
import org.apache.parquet.format.IntType;
import org.apache.parquet.format.LogicalType;
import org.apache.parquet.format.SchemaElement;
import org.apache.parquet.format.TimeUnit._Fields;
import org.apache.parquet.schema.PrimitiveType.PrimitiveTypeName;

/**
 * What the values of a column are: how its type, and what is noted beside it, make texts, numbers
 * and times of what is stored.
 *
 * <p>Source: the Apache Parquet format, "Logical Types"; INT96 after its section "Deprecated INT96
 * timestamps": nanoseconds of the day, then the Julian day, of which 2440588 is 1970-01-01.
 */
final class ColumnValues {
  private static final long EXACT = 1L << 53;
  private static final int LONGEST_DECIMAL = 32;
  private static final int LARGEST_SCALE = 76;
  private static final int EPOCH_JULIAN_DAY = 2_440_588;
  private static final int INT96 = 12;

  private final String name;
  private final PrimitiveTypeName type;
  private final int length;
  private final Maker maker;

  /** Makes a value of what a reader stands at. */
  private interface Maker {
    Object make(ColumnReader at);
  }

  private ColumnValues(String name, PrimitiveTypeName type, int length, Maker maker) {
    this.name = name;
    this.type = type;
    this.length = length;
    this.maker = maker;
  }

  String name() {
    return name;
  }

  PrimitiveTypeName type() {
    return type;
  }

  /** Returns the bytes of a value, where all have as many; else 0. */
  int length() {
    return length;
  }

  /** Returns the value that a reader stands at, null where it is no number. */
  Object value(ColumnReader at) {
    return maker.make(at);
  }

  /**
   * Returns what the values of a column are.
   *
   * @throws Damage if that is nothing that can stand in a table of records
   */
  static ColumnValues of(SchemaElement c) {
    int scale = scale(c);
    return switch (c.getType()) {
      case BOOLEAN -> of(c, PrimitiveTypeName.BOOLEAN, ColumnReader::getBoolean);
      case INT32 -> of(c, PrimitiveTypeName.INT32, int32(c, scale));
      case INT64 -> of(c, PrimitiveTypeName.INT64, int64(c, scale));
      case INT96 -> of(c, PrimitiveTypeName.INT96, at -> int96(at.getBinary().getBytes()));
      case FLOAT -> of(c, PrimitiveTypeName.FLOAT, at -> number(at.getFloat()));
      case DOUBLE -> of(c, PrimitiveTypeName.DOUBLE, at -> number(at.getDouble()));
      case BYTE_ARRAY ->
          of(
              c,
              PrimitiveTypeName.BINARY,
              scale >= 0
                  ? at -> decimal(at.getBinary().getBytes(), scale)
                  : at -> text(at.getBinary().toByteBuffer()));
      case FIXED_LEN_BYTE_ARRAY -> {
        if (c.getType_length() < 1 || scale < 0) {
          throw new Damage(
              "the column " + c.getName() + " of bytes without a meaning",
              "columns of texts, numbers, dates and times");
        }
        yield of(
            c,
            PrimitiveTypeName.FIXED_LEN_BYTE_ARRAY,
            at -> decimal(at.getBinary().getBytes(), scale));
      }
    };
  }

  private static ColumnValues of(SchemaElement c, PrimitiveTypeName type, Maker maker) {
    int length = type == PrimitiveTypeName.FIXED_LEN_BYTE_ARRAY ? c.getType_length() : 0;
    return new ColumnValues(c.getName(), type, length, maker);
  }

  /** Returns the decimal places of a decimal number, or -1 if it is none. */
  private static int scale(SchemaElement c) {
    LogicalType logical = c.getLogicalType();
    boolean decimal = logical != null && logical.isSetDECIMAL();
    if (!decimal && c.getConverted_type() != ConvertedType.DECIMAL) {
      return -1;
    }
    int scale = decimal ? logical.getDECIMAL().getScale() : c.getScale();
    if (scale < 0 || scale > LARGEST_SCALE) {
      throw new Damage(
          "the column " + c.getName() + " of " + scale + " decimal places",
          "at most " + LARGEST_SCALE);
    }
    return scale;
  }

  private static boolean isUnsigned(SchemaElement c) {
    LogicalType logical = c.getLogicalType();
    if (logical != null && logical.isSetINTEGER()) {
      IntType integer = logical.getINTEGER();
      return !integer.isIsSigned();
    }
    ConvertedType converted = c.getConverted_type();
    return converted == ConvertedType.UINT_32 || converted == ConvertedType.UINT_64;
  }

  private static Maker int32(SchemaElement c, int scale) {
    LogicalType logical = c.getLogicalType();
    ConvertedType converted = c.getConverted_type();
    if (logical != null && logical.isSetDATE() || converted == ConvertedType.DATE) {
      return at -> LocalDate.ofEpochDay(at.getInteger());
    }
    if (logical != null && logical.isSetTIME() || converted == ConvertedType.TIME_MILLIS) {
      return at -> time(TimeUnit.MILLISECONDS.toNanos(at.getInteger()));
    }
    if (scale >= 0) {
      return at -> BigDecimal.valueOf(at.getInteger(), scale).doubleValue();
    }
    return isUnsigned(c)
        ? at -> (double) Integer.toUnsignedLong(at.getInteger())
        : at -> (double) at.getInteger();
  }

  private static Maker int64(SchemaElement c, int scale) {
    LogicalType logical = c.getLogicalType();
    ConvertedType converted = c.getConverted_type();
    if (logical != null && logical.isSetTIMESTAMP()) {
      TimeUnit unit = unit(logical.getTIMESTAMP().getUnit().getSetField());
      return logical.getTIMESTAMP().isIsAdjustedToUTC()
          ? at -> instant(at.getLong(), unit)
          : at -> LocalDateTime.ofInstant(instant(at.getLong(), unit), ZoneOffset.UTC);
    }
    if (converted == ConvertedType.TIMESTAMP_MILLIS
        || converted == ConvertedType.TIMESTAMP_MICROS) {
      boolean ms = converted == ConvertedType.TIMESTAMP_MILLIS;
      return at -> instant(at.getLong(), ms ? TimeUnit.MILLISECONDS : TimeUnit.MICROSECONDS);
    }
    if (logical != null && logical.isSetTIME()) {
      TimeUnit unit = unit(logical.getTIME().getUnit().getSetField());
      return at -> time(unit.toNanos(at.getLong()));
    }
    if (converted == ConvertedType.TIME_MICROS) {
      return at -> time(TimeUnit.MICROSECONDS.toNanos(at.getLong()));
    }
    if (scale >= 0) {
      return at -> BigDecimal.valueOf(at.getLong(), scale).doubleValue();
    }
    return isUnsigned(c)
        ? at -> whole(at.getLong(), Long.toUnsignedString(at.getLong()))
        : at -> whole(at.getLong(), Long.toString(at.getLong()));
  }

  /** A whole number, as a text where a double would change it: some are numbers of samples. */
  private static Object whole(long value, String text) {
    return value > -EXACT && value < EXACT ? (Object) (double) value : text;
  }

  private static TimeUnit unit(_Fields unit) {
    return switch (unit) {
      case MILLIS -> TimeUnit.MILLISECONDS;
      case MICROS -> TimeUnit.MICROSECONDS;
      case NANOS -> TimeUnit.NANOSECONDS;
    };
  }

  private static Instant instant(long value, TimeUnit unit) {
    long each = unit.convert(1, TimeUnit.SECONDS);
    return Instant.ofEpochSecond(
        Math.floorDiv(value, each), unit.toNanos(Math.floorMod(value, each)));
  }

  private static LocalTime time(long nanos) {
    if (nanos < 0 || nanos >= TimeUnit.DAYS.toNanos(1)) {
      throw Damage.damaged("a time of day beyond 24 h");
    }
    return LocalTime.ofNanoOfDay(nanos);
  }

  private static LocalDateTime int96(byte[] bytes) {
    if (bytes.length != INT96) {
      throw Damage.damaged("a time of " + bytes.length + " bytes");
    }
    ByteBuffer parts = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
    LocalTime time = time(parts.getLong());
    return LocalDate.ofEpochDay((long) parts.getInt() - EPOCH_JULIAN_DAY).atTime(time);
  }

  /** A number as short as it was written, not with the digits that single precision lacks. */
  private static Double number(float value) {
    return Float.isNaN(value) ? null : Double.valueOf(Float.toString(value));
  }

  private static Double number(double value) {
    return Double.isNaN(value) ? null : value;
  }

  private static double decimal(byte[] bytes, int scale) {
    if (bytes.length == 0 || bytes.length > LONGEST_DECIMAL) {
      throw Damage.damaged("a decimal number of " + bytes.length + " bytes");
    }
    return new BigDecimal(new BigInteger(bytes), scale).doubleValue();
  }

  private static String text(ByteBuffer bytes) {
    try {
      return StandardCharsets.UTF_8.newDecoder().decode(bytes).toString();
    } catch (CharacterCodingException e) {
      throw new Damage("bytes that are no text", "texts in UTF-8");
    }
  }
}
