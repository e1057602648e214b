// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/xdmf.h"

#include "solver/results.h"
#include "solver/text_file.h"

namespace overbend::solver
{
namespace
{
std::string data_item(const std::string &size, const char *number_type, const std::string &place)
{
  return "<DataItem Dimensions=\"" + size + "\" NumberType=\"" + number_type +
         "\" Precision=\"4\" Format=\"HDF\">" + place + "</DataItem>";
}

std::string attribute(const std::string &name, const char *type, const char *center,
                      const std::string &item)
{
  return "<Attribute Name=\"" + name + "\" AttributeType=\"" + type + "\" Center=\"" + center +
         "\">" + item + "</Attribute>\n";
}
} // namespace

std::string xdmf_text(std::size_t n_nodes, std::size_t n_cells, const std::vector<XdmfStep> &steps,
                      const std::string &data_file)
{
  const std::string nodes = std::to_string(n_nodes), cells = std::to_string(n_cells);
  const std::string mesh = "<Topology TopologyType=\"Hexahedron_27\" NumberOfElements=\"" + cells +
                           "\">" + data_item(cells + " 27", "Int", data_file + ":/mesh/cells") +
                           "</Topology>\n" + "<Geometry GeometryType=\"XYZ\">" +
                           data_item(nodes + " 3", "Float", data_file + ":/mesh/nodes") +
                           "</Geometry>\n";
  std::string text = "<?xml version=\"1.0\"?>\n<Xdmf Version=\"2.0\"><Domain>\n"
                     "<Grid Name=\"neck\" GridType=\"Collection\" CollectionType=\"Temporal\">\n";
  for (const XdmfStep &step : steps) {
    text += "<Grid Name=\"neck\" GridType=\"Uniform\"><Time Value=\"" + number_text(step.time, 12) +
            "\"/>\n" + mesh;
    for (const StoredField &field : stored_fields())
      text += attribute(field.shown_name(), field.columns == 3 ? "Vector" : "Scalar", "Node",
                        data_item(field.columns == 3 ? nodes + " 3" : nodes, "Float",
                                  data_file + ":" + step.group + "/" + field.name));
    text +=
        attribute("piece", "Scalar", "Cell", data_item(cells, "Int", data_file + ":/mesh/piece"));
    text += "</Grid>\n";
  }
  return text + "</Grid>\n</Domain></Xdmf>\n";
}
} // namespace overbend::solver
