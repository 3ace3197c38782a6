/* A Modbus client made with libmodbus: asks a bench for everything once and prints it.
   modbus_client tcp PORT | modbus_client rtu DEVICE */
#include <errno.h>
#include <modbus/modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int main(int argc, char **argv) {
  if (argc != 3) {
    return 1;
  }
  modbus_t *ctx = strcmp(argv[1], "rtu") == 0
      ? modbus_new_rtu(argv[2], 19200, 'N', 8, 1)
      : modbus_new_tcp("127.0.0.1", atoi(argv[2]));
  uint16_t words[4];
  uint8_t bits[4];
  if (ctx == NULL || modbus_set_slave(ctx, 1) != 0 || modbus_connect(ctx) != 0) {
    printf("failed %s\n", modbus_strerror(errno));
    return 1;
  }
  modbus_set_response_timeout(ctx, 2, 0);
  if (modbus_read_input_registers(ctx, 0, 2, words) == 2) {
    printf("position %.3f\n", modbus_get_float_abcd(words));
  }
  if (modbus_read_input_bits(ctx, 0, 4, bits) == 4) {
    printf("switches %d%d%d%d\n", bits[0], bits[1], bits[2], bits[3]);
  }
  if (modbus_read_registers(ctx, 100, 2, words) == 2) {
    printf("serial %u\n", (unsigned)words[0] << 16 | words[1]);
  }
  printf("written %d\n", modbus_write_bit(ctx, 0, 1));
  if (modbus_read_bits(ctx, 0, 1, bits) == 1) {
    printf("motor power %d\n", bits[0]);
  }
  if (modbus_read_input_registers(ctx, 500, 2, words) < 0) {
    printf("refused %s\n", modbus_strerror(errno));
  }
  if (modbus_set_slave(ctx, 2) == 0 && modbus_read_registers(ctx, 100, 2, words) == 2) {
    printf("other unit %u\n", (unsigned)words[0] << 16 | words[1]);
  }
  modbus_close(ctx);
  modbus_free(ctx);
  return 0;
}
