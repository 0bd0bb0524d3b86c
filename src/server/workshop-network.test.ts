import { expect, it } from "vitest";
import { isPrivate, workshopAddresses } from "./workshop-network.ts";

const on = (address: string, internal = false, family: "IPv4" | "IPv6" = "IPv4") =>
  ({ address, internal, family, netmask: "", mac: "", cidr: null, scopeid: 0 }) as never;

it("shares on private addresses only, never on one that the world can reach [RFC 1918 §3] [RFC 4193 §3]", () => {
  const interfaces = {
    lo: [on("127.0.0.1", true)],
    inner: [on("172.17.0.1")],
    wlan: [on("fd12:3456:789a::7", false, "IPv6"), on("192.168.1.23"), on("fe80::1", false, "IPv6")],
    lan: [on("10.3.4.5"), on("203.0.113.9"), on("2001:db8::9", false, "IPv6")],
    other: undefined,
  };
  expect(workshopAddresses(interfaces as never)).toEqual([
    "192.168.1.23",
    "10.3.4.5",
    "172.17.0.1",
    "fd12:3456:789a::7",
  ]);
});

it.each([
  ["10.0.0.0", true],
  ["11.0.0.0", false],
  ["172.15.255.255", false],
  ["172.16.0.0", true],
  ["172.31.255.255", true],
  ["172.32.0.0", false],
  ["192.167.1.1", false],
  ["192.168.0.1", true],
  ["100.64.0.1", false],
  ["fc00::1", true],
  ["fdff:ffff::1", true],
  ["fe00::1", false],
  ["fbff::1", false],
  ["2001:db8::1", false],
  ["::1", false],
])("takes %s as private: %s", (address, expected) => {
  expect(isPrivate(address)).toBe(expected);
});
