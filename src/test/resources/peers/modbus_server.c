/* A Modbus server made with libmodbus. It shares no code with ours.
   modbus_server tcp        any free port of 127.0.0.1, which it prints
   modbus_server rtu DEVICE 19200 baud, no parity
   Unit 17: input 0 = 50.0, 4 = 12.5 (floats, high word first), discrete 10 and 13 on,
   holding 100 = 3003 (u32), the rest 0. */
#include <arpa/inet.h>
#include <errno.h>
#include <modbus/modbus.h>
#include <stdio.h>
#include <string.h>

static void serve(modbus_t *ctx, modbus_mapping_t *map) {
  uint8_t query[MODBUS_MAX_ADU_LENGTH];
  for (;;) {
    int count = modbus_receive(ctx, query);
    if (count > 0) {
      modbus_reply(ctx, query, count, map);
    } else if (count < 0 && errno != EMBBADCRC) {
      return;
    }
  }
}

int main(int argc, char **argv) {
  modbus_mapping_t *map = modbus_mapping_new(20, 20, 200, 20);
  if (argc < 2 || map == NULL) {
    return 1;
  }
  map->tab_input_registers[0] = 0x4248;
  map->tab_input_registers[4] = 0x4148;
  map->tab_input_bits[10] = 1;
  map->tab_input_bits[13] = 1;
  map->tab_registers[101] = 3003;
  if (strcmp(argv[1], "rtu") == 0 && argc == 3) {
    modbus_t *ctx = modbus_new_rtu(argv[2], 19200, 'N', 8, 1);
    if (ctx == NULL || modbus_set_slave(ctx, 17) != 0 || modbus_connect(ctx) != 0) {
      printf("failed %s\n", modbus_strerror(errno));
      return 1;
    }
    printf("ready 0\n");
    fflush(stdout);
    for (;;) {
      serve(ctx, map);
    }
  }
  modbus_t *ctx = modbus_new_tcp("127.0.0.1", 0);
  int listener = modbus_tcp_listen(ctx, 1);
  struct sockaddr_in at;
  socklen_t size = sizeof at;
  if (listener < 0 || getsockname(listener, (struct sockaddr *)&at, &size) != 0) {
    printf("failed %s\n", modbus_strerror(errno));
    return 1;
  }
  printf("ready %d\n", ntohs(at.sin_port));
  fflush(stdout);
  while (modbus_tcp_accept(ctx, &listener) >= 0) {
    serve(ctx, map);
    modbus_close(ctx);
  }
  return 0;
}
