// SPDX-License-Identifier: GPL-3.0-or-later
#include "solver/results/xdmf.h"

#include "solver/results/results.h"
#include "solver/results/text_file.h"

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

std::string geometry(const std::string &nodes, const std::string &place)
{
  return "<Geometry GeometryType=\"XYZ\">" + data_item(nodes + " 3", "Float", place) +
         "</Geometry>\n";
}

std::string topology(const char *type, const std::string &cells, int nodes,
                     const std::string &place)
{
  return "<Topology TopologyType=\"" + std::string(type) + "\" NumberOfElements=\"" + cells +
         "\">" + data_item(cells + " " + std::to_string(nodes), "Int", place) + "</Topology>\n";
}

std::string nodal_field(const StoredField &field, const std::string &shown_name,
                        const std::string &nodes, const std::string &group)
{
  return attribute(
      shown_name, field.columns == 3 ? "Vector" : "Scalar", "Node",
      data_item(field.columns == 3 ? nodes + " 3" : nodes, "Float", group + "/" + field.name));
}

// The same at every step.
struct MeshText
{
  std::string neck;
  std::vector<std::pair<std::string, std::string>> glue; // name of the block, its mesh
};

MeshText mesh_text(const XdmfMesh &mesh, const std::string &data_file)
{
  MeshText text;
  const std::string cells = std::to_string(mesh.n_cells);
  text.neck =
      topology("Hexahedron_27", cells, 27, data_file + ":/mesh/cells") +
      geometry(std::to_string(mesh.n_nodes), data_file + ":/mesh/nodes") +
      attribute("piece", "Scalar", "Cell", data_item(cells, "Int", data_file + ":/mesh/piece"));
  for (const auto &[name, faces] : mesh.glue_lines)
    text.glue.emplace_back(
        name + " glue",
        topology("Quadrilateral_9", std::to_string(faces), 9, data_file + ":/glue/" + name) +
            geometry(std::to_string(mesh.n_glue_nodes), data_file + ":/glue/nodes"));
  return text;
}
} // namespace

XdmfMesh xdmf_mesh(const MeshData &mesh)
{
  XdmfMesh sizes{mesh.n_nodes(), mesh.n_cells(), mesh.glue.n_nodes(), {}};
  for (const GlueSurface::Line &line : mesh.glue.lines)
    sizes.glue_lines.emplace_back(line.name, line.n_faces());
  return sizes;
}

std::string xdmf_text(const XdmfMesh &mesh, const std::vector<XdmfStep> &steps,
                      const std::string &data_file)
{
  const MeshText fixed = mesh_text(mesh, data_file);
  const std::string nodes = std::to_string(mesh.n_nodes);
  const std::string glue_nodes = std::to_string(mesh.n_glue_nodes);
  std::string text = "<?xml version=\"1.0\"?>\n<Xdmf Version=\"2.0\"><Domain>\n<Grid "
                     "Name=\"results\" GridType=\"Collection\" CollectionType=\"Temporal\">\n";
  for (const XdmfStep &step : steps) {
    const std::string group = data_file + ":" + step.group;
    text +=
        "<Grid Name=\"step\" GridType=\"Collection\" CollectionType=\"Spatial\"><Time Value=\"" +
        number_text(step.time, 12) + "\"/>\n<Grid Name=\"neck\" GridType=\"Uniform\">\n" +
        fixed.neck;
    for (const StoredField &field : stored_fields())
      text += nodal_field(field, field.shown_name(), nodes, group);
    text += "</Grid>\n";
    for (const auto &[name, block] : fixed.glue) {
      text += "<Grid Name=\"" + name + "\" GridType=\"Uniform\">\n" + block;
      // The block says that it is glue: without the prefix one colour serves neck and glue.
      for (const StoredField &field : stored_glue_fields())
        text += nodal_field(field, field.shown_name().substr(5), glue_nodes, group);
      text += "</Grid>\n";
    }
    text += "</Grid>\n";
  }
  return text + "</Grid>\n</Domain></Xdmf>\n";
}
} // namespace overbend::solver
