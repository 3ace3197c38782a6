/* A Modbus server made with libmodbus, for the benchmarks: as many clients as come, one process.
   poll_server tcp          any free port of 127.0.0.1, which it prints
   poll_server rtu DEVICE   no parity
   Unit 17: input 0 = 50.0 (float, high word first). */
#include <arpa/inet.h>
#include <errno.h>
#include <modbus/modbus.h>
#include <netinet/tcp.h>
#include <stdio.h>
#include <string.h>
#include <sys/select.h>
#include <unistd.h>

static void serve_line(modbus_t *ctx, modbus_mapping_t *map) {
  uint8_t query[MODBUS_MAX_ADU_LENGTH];
  for (;;) {
    int count = modbus_receive(ctx, query);
    if (count > 0) {
      modbus_reply(ctx, query, count, map);
    }
  }
}

static void serve_sockets(modbus_t *ctx, modbus_mapping_t *map, int listener) {
  uint8_t query[MODBUS_MAX_ADU_LENGTH];
  fd_set all;
  int highest = listener;
  FD_ZERO(&all);
  FD_SET(listener, &all);
  for (;;) {
    fd_set ready = all;
    if (select(highest + 1, &ready, NULL, NULL, NULL) < 0) {
      return;
    }
    for (int fd = 0; fd <= highest; fd++) {
      if (!FD_ISSET(fd, &ready)) {
        continue;
      }
      if (fd == listener) {
        int client = accept(listener, NULL, NULL);
        int one = 1;
        setsockopt(client, IPPROTO_TCP, TCP_NODELAY, &one, sizeof one);
        FD_SET(client, &all);
        highest = client > highest ? client : highest;
        continue;
      }
      modbus_set_socket(ctx, fd);
      int count = modbus_receive(ctx, query);
      if (count > 0) {
        modbus_reply(ctx, query, count, map);
      } else if (count < 0) {
        close(fd);
        FD_CLR(fd, &all);
      }
    }
  }
}

int main(int argc, char **argv) {
  modbus_mapping_t *map = modbus_mapping_new(20, 20, 20, 20);
  map->tab_input_registers[0] = 0x4248;
  if (argc == 3 && strcmp(argv[1], "rtu") == 0) {
    modbus_t *ctx = modbus_new_rtu(argv[2], 115200, 'N', 8, 1);
    if (ctx == NULL || modbus_set_slave(ctx, 17) != 0 || modbus_connect(ctx) != 0) {
      return 1;
    }
    printf("ready 0\n");
    fflush(stdout);
    serve_line(ctx, map);
  }
  modbus_t *ctx = modbus_new_tcp("127.0.0.1", 0);
  int listener = modbus_tcp_listen(ctx, 128);
  struct sockaddr_in at;
  socklen_t size = sizeof at;
  if (listener < 0 || getsockname(listener, (struct sockaddr *)&at, &size) != 0) {
    return 1;
  }
  printf("ready %d\n", ntohs(at.sin_port));
  fflush(stdout);
  serve_sockets(ctx, map, listener);
  return 0;
}
