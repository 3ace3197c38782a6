/* A Modbus client made with libmodbus, for the benchmarks: reads two input registers as often as it
   can and prints how many times a second.
   poll_client tcp PORT SECONDS | poll_client rtu DEVICE SECONDS */
#include <modbus/modbus.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec + t.tv_nsec / 1e9;
}

int main(int argc, char **argv) {
  if (argc != 4) {
    return 1;
  }
  modbus_t *ctx = strcmp(argv[1], "rtu") == 0
      ? modbus_new_rtu(argv[2], 115200, 'N', 8, 1)
      : modbus_new_tcp("127.0.0.1", atoi(argv[2]));
  /* Half a second, as usual, may pass on a machine that is busy. */
  if (ctx == NULL || modbus_set_slave(ctx, 17) != 0 || modbus_set_response_timeout(ctx, 10, 0) != 0
      || modbus_set_byte_timeout(ctx, 10, 0) != 0 || modbus_connect(ctx) != 0) {
    return 1;
  }
  uint16_t words[2];
  double seconds = atof(argv[3]);
  double begin = now();
  long polls = 0;
  while (now() - begin < seconds) {
    if (modbus_read_input_registers(ctx, 0, 2, words) != 2
        || modbus_get_float_abcd(words) != 50.0f) {
      return 1;
    }
    polls++;
  }
  printf("ready %.1f\n", polls / (now() - begin));
  modbus_close(ctx);
  return 0;
}
