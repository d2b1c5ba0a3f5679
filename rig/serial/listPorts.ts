import { SerialPort } from 'serialport';

export type ListedPort = { readonly path: string; readonly description: string };

/**
 * Serial ports that the machine knows of. A machine without the means to list them (no udev) has none to show; a port can be
 * opened by its path all the same.
 */
export async function listPorts(): Promise<readonly ListedPort[]> {
  try {
    const ports = await SerialPort.list();
    return ports.map(({ path, manufacturer, serialNumber }) => ({
      path,
      description: [manufacturer, serialNumber].filter((part) => part !== undefined).join(' '),
    }));
  } catch {
    return [];
  }
}
