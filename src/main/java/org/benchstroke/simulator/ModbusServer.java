package org.benchstroke.simulator;

import com.ghgande.j2mod.modbus.Modbus;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteCoilResponse;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsResponse;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterResponse;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.util.Arrays;
import java.util.Map;
import java.util.function.IntUnaryOperator;
import org.benchstroke.io.modbus.MessageCodec;
import org.benchstroke.io.modbus.Register.Table;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What Modbus units answer, without the frames around it: function codes 01..06, 0F and 10 of the
 * MODBUS Application Protocol V1.1b3. The messages are the library's; what it would take without a
 * look (lengths, counts, the value of a coil) is checked before it reads them. One thread at a
 * time.
 */
final class ModbusServer {
  private static final int MOST_BITS_READ = 2000;
  private static final int MOST_REGISTERS_READ = 125;
  private static final int MOST_BITS_WRITTEN = 1968;
  private static final int MOST_REGISTERS_WRITTEN = 123;

  private static final Logger LOG = LoggerFactory.getLogger(ModbusServer.class);

  private final Map<Integer, RegisterMap> units;
  private final MessageCodec codec = new MessageCodec();

  ModbusServer(Map<Integer, RegisterMap> units) {
    this.units = Map.copyOf(units);
  }

  boolean has(int unit) {
    return units.containsKey(unit);
  }

  /** Has every unit carry out a message; none answers. */
  void tell(byte[] request) {
    for (RegisterMap map : units.values()) {
      byte[] unsaid = MessageCodec.bytes(response(map, request));
      LOG.trace("to all: {} bytes unsaid", unsaid.length);
    }
  }

  /** The answer to one message (a PDU) of at least one byte; a message itself. */
  byte[] reply(int unit, byte[] request) {
    RegisterMap map = units.get(unit);
    return MessageCodec.bytes(
        map == null
            ? named(request).createExceptionResponse(Modbus.GATEWAY_TARGET_NO_RESPONSE)
            : response(map, request));
  }

  /** A message that knows no more yet than its function. */
  private static ModbusRequest named(byte[] request) {
    return ModbusRequest.createModbusRequest(Byte.toUnsignedInt(request[0]));
  }

  private ModbusResponse response(RegisterMap map, byte[] request) {
    ModbusRequest message = named(request);
    if (!isOffered(message.getFunctionCode())) {
      return message.createExceptionResponse(Modbus.ILLEGAL_FUNCTION_EXCEPTION);
    }
    if (!isSound(request)) {
      return message.createExceptionResponse(Modbus.ILLEGAL_VALUE_EXCEPTION);
    }
    codec.read(message, request, 0, request.length);
    try {
      return message.getFunctionCode() <= Modbus.READ_INPUT_REGISTERS
          ? values(map, message)
          : written(map, message);
    } catch (RegisterMap.NoSuchAddress e) {
      return message.createExceptionResponse(Modbus.ILLEGAL_ADDRESS_EXCEPTION);
    }
  }

  private static boolean isOffered(int function) {
    return (function >= Modbus.READ_COILS && function <= Modbus.WRITE_SINGLE_REGISTER)
        || function == Modbus.WRITE_MULTIPLE_COILS
        || function == Modbus.WRITE_MULTIPLE_REGISTERS;
  }

  private static boolean isSound(byte[] request) {
    return switch (request[0]) {
      case Modbus.READ_COILS, Modbus.READ_INPUT_DISCRETES -> isCount(request, 5, MOST_BITS_READ);
      case Modbus.READ_HOLDING_REGISTERS, Modbus.READ_INPUT_REGISTERS ->
          isCount(request, 5, MOST_REGISTERS_READ);
      case Modbus.WRITE_COIL ->
          request.length == 5 && (word(request, 3) == 0x0000 || word(request, 3) == 0xFF00);
      case Modbus.WRITE_SINGLE_REGISTER -> request.length == 5;
      case Modbus.WRITE_MULTIPLE_COILS -> isCounted(request, 1, MOST_BITS_WRITTEN);
      default -> isCounted(request, 16, MOST_REGISTERS_WRITTEN);
    };
  }

  private static boolean isCount(byte[] request, int length, int most) {
    return request.length == length && word(request, 3) >= 1 && word(request, 3) <= most;
  }

  /** Whether the byte count and the length of a write of several agree with how many it writes. */
  private static boolean isCounted(byte[] request, int bitsEach, int most) {
    if (request.length < 6) {
      return false;
    }
    int bytes = Byte.toUnsignedInt(request[5]);
    return isCount(request, 6 + bytes, most) && bytes == (word(request, 3) * bitsEach + 7) / 8;
  }

  private static int word(byte[] bytes, int at) {
    return Byte.toUnsignedInt(bytes[at]) << 8 | Byte.toUnsignedInt(bytes[at + 1]);
  }

  private static ModbusResponse values(RegisterMap map, ModbusRequest message)
      throws RegisterMap.NoSuchAddress {
    if (message instanceof ReadCoilsRequest asked) {
      int[] bits = map.read(Table.COIL, asked.getReference(), asked.getBitCount());
      ReadCoilsResponse reply = new ReadCoilsResponse(bits.length);
      for (int i = 0; i < bits.length; i++) {
        reply.setCoilStatus(i, bits[i] != 0);
      }
      return reply;
    }
    if (message instanceof ReadInputDiscretesRequest asked) {
      int[] bits = map.read(Table.DISCRETE, asked.getReference(), asked.getBitCount());
      ReadInputDiscretesResponse reply = new ReadInputDiscretesResponse(bits.length);
      for (int i = 0; i < bits.length; i++) {
        reply.setDiscreteStatus(i, bits[i] != 0);
      }
      return reply;
    }
    if (message instanceof ReadInputRegistersRequest asked) {
      int[] words = map.read(Table.INPUT, asked.getReference(), asked.getWordCount());
      return new ReadInputRegistersResponse(registers(words));
    }
    ReadMultipleRegistersRequest asked = (ReadMultipleRegistersRequest) message;
    int[] words = map.read(Table.HOLDING, asked.getReference(), asked.getWordCount());
    return new ReadMultipleRegistersResponse(registers(words));
  }

  private static SimpleRegister[] registers(int[] words) {
    return Arrays.stream(words).mapToObj(SimpleRegister::new).toArray(SimpleRegister[]::new);
  }

  private static ModbusResponse written(RegisterMap map, ModbusRequest message)
      throws RegisterMap.NoSuchAddress {
    if (message instanceof WriteCoilRequest asked) {
      write(map, Table.COIL, asked.getReference(), 1, i -> asked.getCoil() ? 1 : 0);
      return new WriteCoilResponse(asked.getReference(), asked.getCoil());
    }
    if (message instanceof WriteSingleRegisterRequest asked) {
      int word = asked.getRegister().getValue();
      write(map, Table.HOLDING, asked.getReference(), 1, i -> word);
      return new WriteSingleRegisterResponse(asked.getReference(), word);
    }
    if (message instanceof WriteMultipleCoilsRequest asked) {
      int count = asked.getBitCount();
      write(map, Table.COIL, asked.getReference(), count, i -> asked.getCoilStatus(i) ? 1 : 0);
      // One that is made otherwise has function code 0.
      WriteMultipleCoilsResponse reply = (WriteMultipleCoilsResponse) asked.getResponse();
      reply.setReference(asked.getReference());
      reply.setBitCount(count);
      return reply;
    }
    WriteMultipleRegistersRequest asked = (WriteMultipleRegistersRequest) message;
    write(map, Table.HOLDING, asked.getReference(), asked.getWordCount(), asked::getRegisterValue);
    return new WriteMultipleRegistersResponse(asked.getReference(), asked.getWordCount());
  }

  private static void write(
      RegisterMap map, Table table, int address, int count, IntUnaryOperator values)
      throws RegisterMap.NoSuchAddress {
    int[] written = new int[count];
    Arrays.setAll(written, values);
    map.write(table, address, written);
  }
}
