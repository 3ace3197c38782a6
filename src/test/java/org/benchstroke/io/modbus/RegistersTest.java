package org.benchstroke.io.modbus;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

class RegistersTest {
  private static final HexFormat HEX = HexFormat.ofDelimiter(" ").withUpperCase();

  private static Register register(Register.Type type, Register.Order order, double... line) {
    Register.Table table =
        type == Register.Type.BIT ? Register.Table.DISCRETE : Register.Table.HOLDING;
    double scale = line.length > 0 ? line[0] : 1.0;
    double offset = line.length > 1 ? line[1] : 0.0;
    return new Register(table, 0, type, order, scale, offset);
  }

  // 50.0 is 42480000 in IEEE 754 single precision, 305419896 is 12345678 in hexadecimal.
  @ParameterizedTest
  @CsvSource({
    "F32, ABCD, 42 48 00 00, 50",
    "F32, CDAB, 00 00 42 48, 50",
    "F32, BADC, 48 42 00 00, 50",
    "F32, DCBA, 00 00 48 42, 50",
    "U32, ABCD, 12 34 56 78, 305419896",
    "U32, CDAB, 56 78 12 34, 305419896",
    "U32, BADC, 34 12 78 56, 305419896",
    "U32, DCBA, 78 56 34 12, 305419896",
    "U32, ABCD, FF FF FF FF, 4294967295",
    "I32, ABCD, FF FF FF FE, -2",
    "I32, CDAB, FF FE FF FF, -2",
    "I16, ABCD, 80 00, -32768",
    "I16, ABCD, 7F FF, 32767",
    "U16, ABCD, 80 00, 32768",
    // 50.0 is 4049000000000000 in double precision; 566265752454920 is 0002030405060708.
    "F64, ABCD, 40 49 00 00 00 00 00 00, 50",
    "F64, CDAB, 00 00 00 00 00 00 40 49, 50",
    "F64, BADC, 49 40 00 00 00 00 00 00, 50",
    "F64, DCBA, 00 00 00 00 00 00 49 40, 50",
    "I64, ABCD, 00 02 03 04 05 06 07 08, 566265752454920",
    "I64, CDAB, 07 08 05 06 03 04 00 02, 566265752454920",
    "I64, BADC, 02 00 04 03 06 05 08 07, 566265752454920",
    "I64, DCBA, 08 07 06 05 04 03 02 00, 566265752454920",
    "I64, ABCD, FF FF FF FF FF FF FF FE, -2",
    "U64, ABCD, 80 00 00 00 00 00 00 00, 9223372036854775808",
    "U64, ABCD, FF FF FF FF FF FF F8 00, 18446744073709549568",
    "BCD16, ABCD, 12 34, 1234",
    "BCD16, ABCD, 99 99, 9999",
    "BCD32, ABCD, 12 34 56 78, 12345678",
    "BCD32, CDAB, 56 78 12 34, 12345678",
    "BIT, ABCD, 01, 1",
    "BIT, ABCD, 00, 0",
  })
  void readsAndWritesEachTypeInEachOrder(
      Register.Type type, Register.Order order, String wire, double value) {
    Register register = register(type, order);
    assertThat(Registers.number(register, HEX.parseHex(wire))).isEqualTo(value);
    assertThat(HEX.formatHex(Registers.bytes(register, value))).isEqualTo(wire);
  }

  // The same bytes with the words swapped are a denormal: a value that no instrument means.
  @Test
  void aFloatWithSwappedWordsIsNonsenseAndNotFifty() {
    Register swapped = register(Register.Type.F32, Register.Order.CDAB);
    double nonsense = Registers.value(swapped, HEX.parseHex("42 48 00 00"));
    assertThat(nonsense).isCloseTo(2.3777e-41, within(1e-44));
  }

  @ParameterizedTest
  @CsvSource({"1A 34", "12 3F", "FF FF"})
  void aDigitAboveNineIsNoNumber(String wire) {
    Register register = register(Register.Type.BCD16, Register.Order.ABCD);
    assertThat(Registers.number(register, HEX.parseHex(wire))).isNaN();
  }

  @ParameterizedTest
  @CsvSource({"7F C0 00 00", "FF C0 00 01", "7F 80 00 00", "FF 80 00 00"})
  void aFloatThatIsNoNumberIsHandedOnAsSuch(String wire) {
    Register register = register(Register.Type.F32, Register.Order.ABCD);
    assertThat(Registers.number(register, HEX.parseHex(wire))).isNotFinite();
  }

  @Test
  void scaleAndOffsetTurnCountsIntoAUnitAndBack() {
    Register register = register(Register.Type.U16, Register.Order.ABCD, 0.001, 4.0);
    assertThat(Registers.value(register, HEX.parseHex("1F 40"))).isCloseTo(12.0, within(1e-12));
    assertThat(HEX.formatHex(Registers.bytes(register, 12.0))).isEqualTo("1F 40");
    Register turned = register(Register.Type.BIT, Register.Order.ABCD, -1.0, 1.0);
    assertThat(Registers.value(turned, new byte[] {0})).isEqualTo(1.0);
    assertThat(Registers.bytes(turned, 1.0)).containsExactly(0);
  }

  @ParameterizedTest
  @CsvSource({
    "U16, 65536",
    "U16, -1",
    "I16, 32768",
    "I16, -32769",
    "U32, 4294967296",
    "I32, 2147483648",
    "F32, 1e39",
    "BIT, 2",
    "BCD16, 10000",
    "BCD32, -1",
    "U64, -1",
    "U64, 18446744073709551616",
    "I64, 9223372036854775808",
    "F64, NaN",
    "U16, NaN",
    "F32, NaN"
  })
  void aValueThatDoesNotFitIsRefusedAndNeverClipped(Register.Type type, double value) {
    Register register = register(type, Register.Order.ABCD);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Registers.bytes(register, value))
        .withMessageContaining("can't hold");
  }

  @ParameterizedTest
  @EnumSource(Register.Type.class)
  void theWrongNumberOfBytesIsRefused(Register.Type type) {
    Register register = register(type, Register.Order.ABCD);
    assertThatIllegalArgumentException().isThrownBy(() -> Registers.number(register, new byte[3]));
    assertThatIllegalArgumentException().isThrownBy(() -> Registers.number(register, new byte[9]));
  }
}
