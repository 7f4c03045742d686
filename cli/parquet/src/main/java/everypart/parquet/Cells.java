package everypart.parquet;

import java.math.BigDecimal;
import java.math.BigInteger;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.apache.parquet.example.data.Group;
import org.apache.parquet.io.api.Binary;
import org.apache.parquet.schema.LogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.DateLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.DecimalLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.IntLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.TimeLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.TimeUnit;
import org.apache.parquet.schema.LogicalTypeAnnotation.TimestampLogicalTypeAnnotation;
import org.apache.parquet.schema.LogicalTypeAnnotation.UUIDLogicalTypeAnnotation;
import org.apache.parquet.schema.PrimitiveType;
import org.jspecify.annotations.Nullable;

/** The text of typed cells. */
final class Cells {
  /** The Julian day of 1970-01-01, from which old files count times. */
  private static final long JULIAN_DAY_OF_EPOCH = 2_440_588;

  private static final int INT96_BYTES = 12;

  private Cells() {}

  static @Nullable String text(Group row, int at) {
    PrimitiveType type = row.getType().getType(at).asPrimitiveType();
    LogicalTypeAnnotation meaning = type.getLogicalTypeAnnotation();
    return switch (type.getPrimitiveTypeName()) {
      case BOOLEAN -> String.valueOf(row.getBoolean(at, 0));
      case INT32 -> number(row.getInteger(at, 0), meaning, 0xFFFF_FFFFL);
      case INT64 -> number(row.getLong(at, 0), meaning, -1L);
      case FLOAT -> fraction(row.getFloat(at, 0), Float.toString(row.getFloat(at, 0)));
      case DOUBLE -> fraction(row.getDouble(at, 0), Double.toString(row.getDouble(at, 0)));
      case INT96 -> julian(row.getInt96(at, 0));
      case BINARY, FIXED_LEN_BYTE_ARRAY -> bytes(row.getBinary(at, 0), meaning);
    };
  }

  private static String number(long value, @Nullable LogicalTypeAnnotation meaning, long mask) {
    if (meaning instanceof DateLogicalTypeAnnotation) {
      return LocalDate.ofEpochDay(value).toString();
    }
    if (meaning instanceof TimestampLogicalTypeAnnotation time) {
      Instant instant = Instant.EPOCH.plus(value, unit(time.getUnit()));
      return time.isAdjustedToUTC()
          ? instant.toString()
          : instant.atOffset(ZoneOffset.UTC).toLocalDateTime().toString();
    }
    if (meaning instanceof TimeLogicalTypeAnnotation time) {
      return LocalTime.MIDNIGHT.plus(value, unit(time.getUnit())).toString();
    }
    if (meaning instanceof DecimalLogicalTypeAnnotation decimal) {
      return BigDecimal.valueOf(value, decimal.getScale()).toPlainString();
    }
    if (meaning instanceof IntLogicalTypeAnnotation whole && !whole.isSigned()) {
      return Long.toUnsignedString(value & mask);
    }
    return Long.toString(value);
  }

  private static ChronoUnit unit(TimeUnit unit) {
    return switch (unit) {
      case MILLIS -> ChronoUnit.MILLIS;
      case MICROS -> ChronoUnit.MICROS;
      case NANOS -> ChronoUnit.NANOS;
    };
  }

  /** Returns a fraction; a column of whole numbers with gaps is often saved as one, so 3.0 is 3. */
  private static @Nullable String fraction(double value, String shortest) {
    if (Double.isNaN(value)) {
      return null;
    }
    return Double.isInfinite(value)
        ? shortest
        : new BigDecimal(shortest).stripTrailingZeros().toPlainString();
  }

  private static String julian(Binary value) {
    ByteBuffer bytes = ByteBuffer.wrap(value.getBytes()).order(ByteOrder.LITTLE_ENDIAN);
    if (bytes.remaining() != INT96_BYTES) {
      throw new IllegalArgumentException("a time of " + bytes.remaining() + " bytes");
    }
    long nanos = bytes.getLong();
    long day = bytes.getInt() - JULIAN_DAY_OF_EPOCH;
    return Instant.EPOCH.plus(day, ChronoUnit.DAYS).plusNanos(nanos).toString();
  }

  private static String bytes(Binary value, @Nullable LogicalTypeAnnotation meaning) {
    if (meaning instanceof DecimalLogicalTypeAnnotation decimal) {
      return new BigDecimal(new BigInteger(value.getBytes()), decimal.getScale()).toPlainString();
    }
    if (meaning instanceof UUIDLogicalTypeAnnotation) {
      ByteBuffer bytes = value.toByteBuffer();
      return new UUID(bytes.getLong(), bytes.getLong()).toString();
    }
    return new String(value.getBytes(), StandardCharsets.UTF_8);
  }
}
