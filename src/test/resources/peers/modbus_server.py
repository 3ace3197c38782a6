"""A Modbus server made with pymodbus (Debian 12 has 3.0.0). It shares no code with ours.

modbus_server.py tcp PORT | modbus_server.py rtu DEVICE
Unit 17 holds what modbus_server.c does.
"""
import asyncio
import sys

from pymodbus.datastore import (
    ModbusSequentialDataBlock,
    ModbusServerContext,
    ModbusSlaveContext,
)
from pymodbus.server.async_io import ModbusSerialServer, ModbusTcpServer
from pymodbus.framer.rtu_framer import ModbusRtuFramer
from pymodbus.framer.socket_framer import ModbusSocketFramer

inputs = [0x4248, 0, 0, 0, 0x4148, 0]
discrete = [i in (10, 13) for i in range(20)]
holding = [3003 if i == 101 else 0 for i in range(200)]
unit = ModbusSlaveContext(
    co=ModbusSequentialDataBlock(0, [False] * 20),
    di=ModbusSequentialDataBlock(0, discrete),
    hr=ModbusSequentialDataBlock(0, holding),
    ir=ModbusSequentialDataBlock(0, inputs),
    zero_mode=True,
)
context = ModbusServerContext(slaves={17: unit}, single=False)


async def main():
    if sys.argv[1] == "rtu":
        server = ModbusSerialServer(
            context,
            framer=ModbusRtuFramer,
            port=sys.argv[2],
            baudrate=19200,
            parity="N",
        )
        await server.start()
    else:
        server = ModbusTcpServer(
            context, framer=ModbusSocketFramer, address=("127.0.0.1", int(sys.argv[2]))
        )
    serving = asyncio.ensure_future(server.serve_forever())
    if sys.argv[1] != "rtu":
        await server.serving
    print("ready", sys.argv[2], flush=True)
    await serving


asyncio.run(main())
